/** README.txt of every bundle: for somebody who has the archive and nothing else. */
export const README = `THE HAND-OVER OF AN ENGINE

This archive holds what an engine's builder told its owner, and all that it rests on.
Everything in it is text (UTF-8), or a file of a common kind. No special program is needed.

  manifest.json    every file in here with its SHA-256 digest
  signature.json   an Ed25519 signature (RFC 8032) of the bytes of manifest.json, with the public
                   key of the shop; both base64
  handover.json    every figure that was handed over. Units stand at the end of each name: torqueNm is
                   in N m, powerW in W, speedRpm in rev/min, leadDeg in degrees of the crank,
                   temperatureK in K, pressureAbsPa in Pa absolute. "low" and "high" are the ends of
                   95 % intervals. null means not known.
  record.json      what the figures were computed from: engine, build, test days, pulls, ladders,
                   decisions, the build sheet and how the cell's files are read
  recordings/      the files of the dynamometer as they came, named by their SHA-256 digest
  files/           photos and files of the build sheet, the same way
  tables/          the same figures as tables (CSV by RFC 4180 and Parquet), with datapackage.json
                   (Frictionless Data Package) naming every column and its unit
  figures/         pictures (SVG)
  report.pdf       the report for people; page.html the same for a screen. A bundle that was taken out
                   of a report has neither: the report stands around it.

To check it by hand: compare the SHA-256 digest of each file with manifest.json, then the signature
with the public key that is printed in the report. The zip's own comment holds the SHA-256 digest of
all bytes before it.

Torque and power stand in the air of the standard that handover.json names, and each pull has the
factor that brought it there. A figure whose band includes its opposite cannot be told from chance.
`;
