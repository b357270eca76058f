/** Lines for a shell, as they stand in the README; a test runs them. */
const DIGESTS = String.raw`  sed -n 's/^ *"path": "\(.*\)",$/\1/p; s/^ *"sha256": "\(.*\)",$/\1/p' manifest.json |
    paste - - | awk -F'\t' '{print $2 "  " $1}' | sha256sum -c --quiet`;

const SIGNATURE = String.raw`  { printf '\060\052\060\005\006\003\053\145\160\003\041\000'
    sed -n 's/.*"publicKey": "\(.*\)".*/\1/p' signature.json | base64 -d; } > key.der
  sed -n 's/.*"signature": "\(.*\)".*/\1/p' signature.json | base64 -d > signature.bin
  openssl pkeyutl -verify -pubin -keyform DER -inkey key.der -rawin \
    -in manifest.json -sigfile signature.bin`;

/** README.txt of every bundle: for somebody who has the archive and nothing else. */
export const README = `THE HAND-OVER OF AN ENGINE

This archive holds what an engine's builder told its owner, and all that it rests on.
Everything in it is text (UTF-8), or a file of a common kind. No special program is needed.

WHAT IS IN HERE

  manifest.json    every file in here with its SHA-256 digest
  signature.json   an Ed25519 signature (RFC 8032) of the bytes of manifest.json, with the public
                   key of the shop; both base64
  handover.json    every figure that was handed over, and in "choice" what was asked for: days,
                   standard of the air, units of the report, step of the table
  record.json      what the figures were computed from: engine, build, test days, pulls, ladders,
                   decisions, the build sheet, the cell and how its files are read
  recordings/      the files of the dynamometer as they came, named by their SHA-256 digest
  files/           photos and files of the build sheet, the same way (where there are any)
  tables/          the same figures as tables (CSV by RFC 4180, and Parquet), with datapackage.json
                   (Frictionless Data Package, Table Schema): each column with its title and its unit
                   by UCUM, the Unified Code for Units of Measure
  figures/         pictures (SVG)
  report.pdf       the report for people; page.html the same for a screen. A bundle that was taken out
                   of a report has neither: the report stands around it.

HOW TO READ THE NUMBERS

Units stand at the end of each name: torqueNm is in N m, powerW in W, speedRpm in rev/min, leadDeg in
degrees of the crank, temperatureK in K, pressureAbsPa in Pa absolute, inertiaKgM2 in kg m2, gainPercent
in percent. Lambda and relative humidity (0 to 1) have no unit. null, or an empty cell, means not known.
"low" and "high" are the ends of a 95 % interval: of a curve and its peaks, an absolute one, which has
in it the readings, how pulls differ from one another, and the calibration. A gain whose interval holds
both signs cannot be told from chance. A text of a CSV that a spreadsheet could take for a formula has an
apostrophe before it.

  tables/curve.csv         the engine's curve: the mean of the pulls that "final" in handover.json names
  tables/by-speed.csv      the same at whole steps of speed
  tables/pulls.csv         every pull of the days, its air, its factor, its peaks; isInCurve: it is one
                           of those of the curve; excludedBecause: why it does not count
  tables/pull-curves.csv   the curve of each pull; tables/marks.csv what was noticed in it
  tables/ladder-steps.csv  what each step of a setting gained; tables/settings.csv the settings advised
                           and decided; tables/sheet-*.csv what follows from the build sheet

HOW A CURVE COMES ABOUT

A pull is the rows "rows" (in handover.json; the first reading of the file is row 0) of one recording.
Observed torque is the column of torque, less the offset and divided by the gain of the cell's calibration
where that is applied, and times "ratio" of the cell where the brake is geared; tables/marks.csv says so.
To it is added

    J dw/dt        J: inertiaKgM2 of the day, else of the cell; w: 2 pi speed / 60 [rad/s]

where the cell's torque is said to have "inertia": "out" (the torque that sped up the rotating parts
never reached the brake). The lag of the sensor (sensorLagS) is taken out, blips are left out, and a
smooth curve (a penalised B-spline) is fitted to torque against speed. That curve is multiplied by the
correction factor, which brings it to the air of the standard that "choice" names; power is 2 pi speed /
60 times torque. With p the pressure of the air [Pa], T its temperature [K] and pd = p - humidity x psat
the pressure of the dry air in it, the factor is

  SAE J1349     1.18 (99000 / pd) sqrt((T - 0.15) / 298) - 0.18       SAE J1349, June 1990
  ISO 1585      (99000 / pd)^1.2 (T / 298)^0.6                        ISO 1585:1992, UN ECE R85
  DIN 70020     (101300 / p) sqrt((T - 0.15) / 293)                   DIN 70020 part 6, until 1993
  SAE 60F dry   (29.92 / pd in inHg) sqrt((t in Fahrenheit + 460) / 520)   after SAE J607 and J816
  none          1

for spark ignition and natural aspiration, and psat, above freezing (Hyland and Wexler, 1983; in Pa),

  ln psat = -5800.2206 / T + 1.3914993 - 0.048640239 T + 4.1764768e-5 T^2 - 1.4452093e-8 T^3
            + 6.5459673 ln T

Where a file's torque was corrected by its logger already, that is undone first; the pull says so in
tables/marks.csv. Outside the air that a standard was written for, a mark says that too.

HOW TO CHECK IT BY HAND

Each file against the manifest, in a shell (no line of output: each is as it was):

${DIGESTS}

The manifest against its signature, with OpenSSL 3 (the twelve bytes before the key are what RFC 8410
puts there):

${SIGNATURE}

Then the public key against the one that is printed in the report, and its short name (the first twenty
hexadecimal digits of the key's SHA-256) against the one that the shop gave you by another way. The
comment of the zip itself, its last 106 bytes, holds the SHA-256 digest of all bytes before it.

What this proves: the archive is as it was when the holder of that key signed it. That the figures
follow from the recordings, Pullbook shows by computing them again (pullbook verify). That the
recordings are true, no file can show.
`;
