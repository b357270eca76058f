import type { Phrase } from '../../phrases.ts';

/** What `src/pull` and the air standards say of a pull: what stood out, and why it has no curve. */
export const pulls: readonly Phrase[] = [
  // Torque: where it comes from, and what was done to it.
  ['Torque was computed from {@columns}.', 'Das Drehmoment wurde aus {@columns} berechnet.'],
  [
    'Torque of the brake was multiplied by {#ratio}, brake turns per crank turn.',
    'Das Drehmoment der Bremse wurde mit {#ratio} multipliziert, ihren Umdrehungen je Umdrehung der Kurbelwelle.',
  ],
  [
    'The engine is boosted: observed figures are shown; {@standard} is written for natural aspiration and is there as an option.',
    'Der Motor ist aufgeladen: Gezeigt werden die gemessenen Werte; {@standard} gilt für Saugmotoren und steht zur Wahl.',
  ],
  [
    'The engine is on nitrous: observed figures are shown; {@standard} is written for natural aspiration and is there as an option.',
    'Der Motor läuft mit Lachgas: Gezeigt werden die gemessenen Werte; {@standard} gilt für Saugmotoren und steht zur Wahl.',
  ],
  [
    'Nobody has said whether this torque is observed or corrected, so it is shown as recorded and not corrected.',
    'Niemand hat gesagt, ob dieses Drehmoment gemessen oder umgerechnet ist; es steht da wie aufgezeichnet und ist nicht umgerechnet.',
  ],
  [
    'The logger has already corrected this torque to {@standard}.',
    'Der Logger hat dieses Drehmoment schon auf {@standard} umgerechnet.',
  ],
  [
    "The logger had corrected this torque to {@standard}; that was taken out with this pull's air before anything else.",
    'Der Logger hatte dieses Drehmoment auf {@standard} umgerechnet; das wurde zuerst mit der Luft dieses Laufs zurückgerechnet.',
  ],
  [
    'Air pressure and temperature were not recorded, so the torque could not be brought to {wanted}; it is shown as {shown}.',
    'Luftdruck und Lufttemperatur sind nicht aufgezeichnet; das Drehmoment ließ sich deshalb nicht auf {wanted} bringen. Es steht da als {shown}.',
  ],
  ['observed', 'gemessen'],
  ['corrected by the logger to {@standard}', 'vom Logger auf {@standard} umgerechnet'],
  ['SAE J1349', 'SAE J1349'],
  ['SAE 60F dry', 'SAE 60F dry'],
  ['ISO 1585', 'ISO 1585'],
  ['DIN 70020', 'DIN 70020'],
  [
    'The torque that accelerated the rotating parts was put back with {#inertia}, the figure of the cell; nobody has said that it is right with this engine on it.',
    'Das Moment, das die drehenden Teile beschleunigte, wurde mit {#inertia} hinzugerechnet, dem Wert des Prüfstands; niemand hat gesagt, dass er mit diesem Motor stimmt.',
  ],
  [
    'Nobody has said whether the torque that accelerated the rotating parts is in this column, so it was not put back.',
    'Niemand hat gesagt, ob das Moment, das die drehenden Teile beschleunigte, in dieser Spalte steckt; es wurde nicht hinzugerechnet.',
  ],
  [
    'The inertia of what turns is not known, so the torque that accelerated it is missing from this curve: at this sweep rate {#torque} for each kg·m².',
    'Die Trägheit dessen, was sich dreht, ist nicht bekannt; das Moment, das es beschleunigte, fehlt in dieser Kurve: bei diesem Hochlauf {#torque} je kg·m².',
  ],
  [
    'The torque that accelerated the rotating parts was not put back.',
    'Das Moment, das die drehenden Teile beschleunigte, wurde nicht hinzugerechnet.',
  ],
  [
    'The rows have no time, so the torque that accelerated the rotating parts could not be put back: if this was a sweep, the curve reads low.',
    'Die Zeilen haben keine Zeit; das Moment, das die drehenden Teile beschleunigte, ließ sich nicht hinzurechnen: War es ein Hochlauf, liegt die Kurve zu niedrig.',
  ],
  [
    'Torque follows the throttle {#lag} late in this recording; the sweep was put right by that much.',
    'In dieser Aufzeichnung folgt das Drehmoment der Drosselklappe um {#lag} zu spät; der Hochlauf wurde um so viel berichtigt.',
  ],
  [
    'Torque stood {#size} below the curve {where}; those readings were left out.',
    'Das Drehmoment lag {where} um {#size} unter der Kurve; diese Messwerte zählen nicht.',
  ],
  [
    'Torque stood {#size} above the curve {where}; those readings were left out.',
    'Das Drehmoment lag {where} um {#size} über der Kurve; diese Messwerte zählen nicht.',
  ],
  ['at {#speed}', 'bei {#speed}'],
  ['from {#speeds}', 'von {#speeds}'],
  [
    "The load cell's zero moved by {#moved} between before and after the pull ({#zeros}); the mean of both was taken off, which leaves {#doubt} in doubt.",
    'Der Nullpunkt der Kraftmessdose verschob sich zwischen vor und nach dem Lauf um {#moved} ({#zeros}); das Mittel von beiden wurde abgezogen, {#doubt} bleiben zweifelhaft.',
  ],
  [
    'With the engine at rest the torque reads {#zero}; that zero was taken off.',
    'Bei stehendem Motor zeigt das Drehmoment {#zero}; dieser Nullpunkt wurde abgezogen.',
  ],

  // The cell's calibration.
  [
    "Torque was corrected by the cell's calibration of {#day}: less {#zero} at the sensor, divided by {#gain}.",
    'Das Drehmoment wurde nach der Kalibrierung des Prüfstands vom {#day} berichtigt: am Sensor {#zero} abgezogen, dann durch {#gain} geteilt.',
  ],
  [
    "Torque was corrected by the cell's calibration of {#day}: divided by {#gain}.",
    'Das Drehmoment wurde nach der Kalibrierung des Prüfstands vom {#day} berichtigt: durch {#gain} geteilt.',
  ],
  [
    'By its calibration of {#day} the cell reads {#wrong} too high at this torque; the curve is not corrected for it, and its band is wide enough to hold it.',
    'Nach seiner Kalibrierung vom {#day} zeigt der Prüfstand bei diesem Drehmoment {#wrong} zu viel; die Kurve ist darum nicht berichtigt, ihr Band ist breit genug dafür.',
  ],
  [
    'By its calibration of {#day} the cell reads {#wrong} too low at this torque; the curve is not corrected for it, and its band is wide enough to hold it.',
    'Nach seiner Kalibrierung vom {#day} zeigt der Prüfstand bei diesem Drehmoment {#wrong} zu wenig; die Kurve ist darum nicht berichtigt, ihr Band ist breit genug dafür.',
  ],
  [
    'The calibration of {#day} went up to {#most} at the sensor, and this pull stood at {#stood}: above the heaviest weights nothing was shown.',
    'Die Kalibrierung vom {#day} reichte am Sensor bis {#most}, dieser Lauf lag bei {#stood}: Über den schwersten Gewichten ist nichts gezeigt.',
  ],

  // Air.
  [
    'No humidity was recorded; {#humidity} was taken, which may be off by {#off} of torque on a warm day.',
    'Die Luftfeuchte ist nicht aufgezeichnet; angenommen sind {#humidity}, was an einem warmen Tag {#off} des Drehmoments ausmachen kann.',
  ],
  [
    'The {reading} in "{@column}" cannot be that of any air, so it was not used.',
    'Was in „{@column}“ als {reading} steht, kann keine Luft haben; es wurde nicht verwendet.',
  ],
  [
    'The {reading} that was given cannot be that of any air, so it was not used.',
    'Was als {reading} angegeben ist, kann keine Luft haben; es wurde nicht verwendet.',
  ],
  ['inlet air temperature', 'Temperatur der Ansaugluft'],
  ['air pressure', 'Luftdruck'],
  ['humidity', 'Luftfeuchte'],
  [
    'The inlet air temperature did not move by one digit over the whole pull: the sensor may be stuck, and every degree it is off is {#off} of torque.',
    'Die Temperatur der Ansaugluft blieb den ganzen Lauf auf die letzte Stelle gleich: Der Fühler kann hängen, und jedes Grad daneben sind {#off} des Drehmoments.',
  ],
  [
    'Correction factor {#factor} is outside the {#window} that {@standard} allows: quote the observed figure beside it.',
    'Der Umrechnungsfaktor {#factor} liegt außerhalb von {#window}, was {@standard} erlaubt: Nennen Sie den gemessenen Wert daneben.',
  ],
  [
    'Inlet air at {#temperature} is outside the {#window} that {@standard} is written for.',
    'Die Ansaugluft liegt mit {#temperature} außerhalb von {#window}, wofür {@standard} gilt.',
  ],
  [
    'Dry air pressure of {#pressure} is outside the {#window} that {@standard} is written for.',
    'Der Druck der trockenen Luft liegt mit {#pressure} außerhalb von {#window}, wofür {@standard} gilt.',
  ],
  [
    '{@standard} is written for engines that breathe on their own; a boosted engine does not follow it, so the observed figures come first.',
    '{@standard} gilt für Saugmotoren; ein aufgeladener Motor folgt ihr nicht, darum stehen die gemessenen Werte voran.',
  ],
  [
    '{@standard} is written for engines that breathe on their own; a nitrous-fed engine does not follow it, so the observed figures come first.',
    '{@standard} gilt für Saugmotoren; ein Motor mit Lachgas folgt ihr nicht, darum stehen die gemessenen Werte voran.',
  ],
  [
    'Inlet air moved by {#moved} during the pull; one factor for the whole pull is off by {#off} of torque at its ends.',
    'Die Ansaugluft änderte sich während des Laufs um {#moved}; ein Faktor für den ganzen Lauf liegt an dessen Enden um {#off} des Drehmoments daneben.',
  ],
  [
    "The air pressure moved by {#moved} during the pull, which no weather does: the sensor sees the cell's fans or drifts.",
    'Der Luftdruck änderte sich während des Laufs um {#moved}, was kein Wetter tut: Der Sensor spürt die Gebläse des Prüfstands, oder er driftet.',
  ],

  // Channels.
  [
    '"{@channel}" stands at the end of its scale {where}: what it measures went further.',
    '„{@channel}“ steht {where} am Ende seiner Skala: Was er misst, ging weiter.',
  ],
  [
    '"{@channel}" did not move by one digit over the whole pull.',
    '„{@channel}“ blieb den ganzen Lauf auf die letzte Stelle gleich.',
  ],
  ['"{@channel}" stopped moving {where}.', '„{@channel}“ bewegte sich {where} nicht mehr.'],
  [
    '"{@channel}" moves only every {#rows} rows: a slow source was logged faster than it speaks, and each reading counts once.',
    '„{@channel}“ ändert sich nur alle {#rows} Zeilen: Eine langsame Quelle wurde schneller aufgezeichnet, als sie liefert; jeder Wert zählt einmal.',
  ],
  [
    '{#rows} rows carry a time that does not move on; they were left out.',
    '{#rows} Zeilen haben eine Zeit, die nicht weitergeht; sie wurden weggelassen.',
  ],
  [
    '{#rows} row carries a time that does not move on; it was left out.',
    '{#rows} Zeile hat eine Zeit, die nicht weitergeht; sie wurde weggelassen.',
  ],
  [
    'The recording has a gap of {#gap}; the curve bridges it with a wide band.',
    'Die Aufzeichnung hat eine Lücke von {#gap}; die Kurve überbrückt sie mit einem breiten Band.',
  ],
  [
    'The recording has a gap of {#gap} between {#speeds}; the curve bridges it with a wide band.',
    'Die Aufzeichnung hat zwischen {#speeds} eine Lücke von {#gap}; die Kurve überbrückt sie mit einem breiten Band.',
  ],

  // The sweep.
  [
    'The sweep ran at {#rate} per second, faster than {#most}: lag and inertia weigh so much that the curve leans on their figures.',
    'Der Hochlauf ging mit {#rate} je Sekunde, schneller als {#most}: Nachhinken und Trägheit wiegen so schwer, dass die Kurve von ihren Zahlen abhängt.',
  ],
  [
    'The sweep ran at {#rate} per second, slower than {#least}: the engine heats up on the way.',
    'Der Hochlauf ging mit {#rate} je Sekunde, langsamer als {#least}: Der Motor wird unterwegs heiß.',
  ],
  [
    'The sweep was uneven: {where} per second.',
    'Der Hochlauf war ungleichmäßig: {where} je Sekunde.',
  ],
  [
    'The pull misses {#missing} of the band {where}.',
    'Dem Lauf fehlen {#missing} des Bandes {where}.',
  ],
  [
    'The throttle closed {where}, before the end.',
    'Die Drosselklappe schloss {where}, vor dem Ende.',
  ],
  [
    'The throttle stood at {#open} over the pull and not fully open; air standards hold for full throttle only.',
    'Die Drosselklappe stand während des Laufs bei {#open} und nicht ganz offen; die Normen der Luft gelten nur für Vollgas.',
  ],
  [
    "Torque may be highest at the upper end of the sweep ({#speed}): the peak given is that of the speeds swept, and the engine's own may lie beyond.",
    'Das Drehmoment kann am oberen Ende des Hochlaufs ({#speed}) am größten sein: Der genannte Höchstwert ist der der durchfahrenen Drehzahlen, der des Motors kann darüber liegen.',
  ],
  [
    "Torque may be highest at the lower end of the sweep ({#speed}): the peak given is that of the speeds swept, and the engine's own may lie beyond.",
    'Das Drehmoment kann am unteren Ende des Hochlaufs ({#speed}) am größten sein: Der genannte Höchstwert ist der der durchfahrenen Drehzahlen, der des Motors kann darunter liegen.',
  ],
  [
    "Power may be highest at the upper end of the sweep ({#speed}): the peak given is that of the speeds swept, and the engine's own may lie beyond.",
    'Die Leistung kann am oberen Ende des Hochlaufs ({#speed}) am größten sein: Der genannte Höchstwert ist der der durchfahrenen Drehzahlen, der des Motors kann darüber liegen.',
  ],
  [
    "Power may be highest at the lower end of the sweep ({#speed}): the peak given is that of the speeds swept, and the engine's own may lie beyond.",
    'Die Leistung kann am unteren Ende des Hochlaufs ({#speed}) am größten sein: Der genannte Höchstwert ist der der durchfahrenen Drehzahlen, der des Motors kann darunter liegen.',
  ],

  // Temperatures, oil pressure, mixture, exhaust.
  [
    '{fluid} stood at {#found} when the pull began, below its window of {#window}.',
    '{fluid} hatte zu Beginn des Laufs {#found}, unter dem Fenster von {#window}.',
  ],
  [
    '{fluid} stood at {#found} when the pull began, above its window of {#window}.',
    '{fluid} hatte zu Beginn des Laufs {#found}, über dem Fenster von {#window}.',
  ],
  [
    "{fluid} stood {#off} above the day's other pulls when this one began: part of its difference is heat.",
    '{fluid} lag zu Beginn dieses Laufs {#off} über den anderen Läufen des Tages: Ein Teil seines Unterschieds ist Wärme.',
  ],
  [
    "{fluid} stood {#off} below the day's other pulls when this one began: part of its difference is heat.",
    '{fluid} lag zu Beginn dieses Laufs {#off} unter den anderen Läufen des Tages: Ein Teil seines Unterschieds ist Wärme.',
  ],
  ['Oil', 'Öl'],
  ['Water', 'Wasser'],
  ['Inlet air', 'Ansaugluft'],
  [
    'Inlet air shows {#temperature} in every pull of the day, to the digit: the sensor may be stuck.',
    'Die Ansaugluft zeigt in jedem Lauf des Tages {#temperature}, auf die letzte Stelle: Der Fühler kann hängen.',
  ],
  [
    'Only {#time} after the pull before: the engine had no time to come back to where that one started.',
    'Nur {#time} nach dem Lauf davor: Der Motor hatte keine Zeit, dorthin zurückzukehren, wo jener begann.',
  ],
  [
    '{#minutes} minutes after the pull before: warm the engine to the same place before comparing.',
    '{#minutes} Minuten nach dem Lauf davor: Bringen Sie den Motor auf dieselbe Wärme, bevor Sie vergleichen.',
  ],
  [
    'Oil pressure is {#pressure} at {#speed}, less than the {#least} that this speed asks for.',
    'Der Öldruck ist {#pressure} bei {#speed}, weniger als die {#least}, die diese Drehzahl verlangt.',
  ],
  [
    'Oil pressure sags {where} while the speed rises: look for air at the pickup before the next pull.',
    'Der Öldruck sinkt {where}, während die Drehzahl steigt: Suchen Sie vor dem nächsten Lauf nach Luft am Ansaugrohr der Ölpumpe.',
  ],
  ['from {#pressures} at {#speed}', 'von {#pressures} bei {#speed}'],
  [
    'Lambda of {probe} is pinned at {#lambda}: the sensor is at the end of its scale and says nothing about the mixture.',
    'Lambda von {probe} steht fest bei {#lambda}: Die Sonde ist am Ende ihrer Skala und sagt nichts über das Gemisch.',
  ],
  [
    'The banks differ: {probe} ran at {#lambda}, {other} at {#otherLambda}; the leaner is judged.',
    'Die Bänke unterscheiden sich: {probe} lief bei {#lambda}, {other} bei {#otherLambda}; beurteilt wird die magerere.',
  ],
  [
    'Lambda ran at {#lambda} over the band, {#off} leaner than its target of {#target} ({probe}).',
    'Lambda lag über das Band bei {#lambda}, um {#off} magerer als das Ziel von {#target} ({probe}).',
  ],
  [
    'Lambda ran at {#lambda} over the band, {#off} richer than its target of {#target} ({probe}).',
    'Lambda lag über das Band bei {#lambda}, um {#off} fetter als das Ziel von {#target} ({probe}).',
  ],
  [
    'Lambda reads lean ({#lambda}) just where torque fell by {#fell}: that is the unburned air of a misfire, not a lean mixture.',
    'Lambda zeigt mager ({#lambda}) genau dort, wo das Drehmoment um {#fell} fiel: Das ist die unverbrannte Luft einer Fehlzündung, kein mageres Gemisch.',
  ],
  ['bank {#bank}', 'Bank {#bank}'],
  ['cylinder {#cylinder}', 'Zylinder {#cylinder}'],
  ['"{@channel}"', '„{@channel}“'],
  [
    'Exhaust of {probe} stands {#apart} above the others: lean, late, or burning on.',
    'Das Abgas von {probe} liegt {#apart} über den anderen: mager, spät, oder es brennt nach.',
  ],
  [
    'Exhaust of {probe} stands {#apart} below the others: rich, misfiring, or a dead sensor.',
    'Das Abgas von {probe} liegt {#apart} unter den anderen: fett, Fehlzündungen oder ein toter Fühler.',
  ],

  // Why a pull has no curve.
  [
    'The speeds of this pull cannot be those of any engine.',
    'Die Drehzahlen dieses Laufs kann kein Motor haben.',
  ],
  [
    'The speed of this pull hardly moves, so there is no curve against speed.',
    'Die Drehzahl dieses Laufs ändert sich kaum; es gibt keine Kurve über der Drehzahl.',
  ],
  [
    'The torque of this pull is not positive: nothing drove the brake.',
    'Das Drehmoment dieses Laufs ist nicht positiv: Nichts trieb die Bremse.',
  ],
  [
    'The rows given for the pull are not rows of this recording.',
    'Die Zeilen, die für den Lauf genannt sind, gehören nicht zu dieser Aufzeichnung.',
  ],
  [
    'The recording has no speed, so it is not a pull.',
    'Die Aufzeichnung hat keine Drehzahl und ist darum kein Lauf.',
  ],
  [
    'The recording has neither torque nor power, so it is not a pull.',
    'Die Aufzeichnung hat weder Drehmoment noch Leistung und ist darum kein Lauf.',
  ],
  [
    'The recording has neither torque nor power, so it has no curve.',
    'Die Aufzeichnung hat weder Drehmoment noch Leistung und darum keine Kurve.',
  ],
  ['The speed column holds no numbers.', 'In der Spalte der Drehzahl stehen keine Zahlen.'],
  ['The torque column holds no numbers.', 'In der Spalte des Drehmoments stehen keine Zahlen.'],
  [
    'The pull has too few samples of speed to follow.',
    'Der Lauf hat zu wenige Messwerte der Drehzahl, um ihr zu folgen.',
  ],
  [
    'The pull has too few readings of torque for a curve.',
    'Der Lauf hat zu wenige Messwerte des Drehmoments für eine Kurve.',
  ],
  [
    'Too little of the pull is left for a curve once it has settled.',
    'Vom Lauf bleibt zu wenig für eine Kurve, sobald er sich beruhigt hat.',
  ],
  [
    'Only {#points} points are left, too few for a curve.',
    'Nur {#points} Punkte bleiben, zu wenige für eine Kurve.',
  ],
  [
    'The points do not determine the curve: a matrix is singular.',
    'Die Punkte bestimmen die Kurve nicht: Eine Matrix ist singulär.',
  ],
  [
    'These pulls stand in different air standards; choose one for all.',
    'Diese Läufe stehen in verschiedenen Normen der Luft; wählen Sie eine für alle.',
  ],
  ['These pulls have no speeds in common.', 'Diese Läufe haben keine Drehzahl gemeinsam.'],
  [
    'Typed peaks have no curve; a recording of the pull would.',
    'Eingetippte Höchstwerte haben keine Kurve; eine Aufzeichnung des Laufs hätte eine.',
  ],
  [
    'The recording of this pull is not in the record.',
    'Die Aufzeichnung dieses Laufs ist nicht verzeichnet.',
  ],
];
