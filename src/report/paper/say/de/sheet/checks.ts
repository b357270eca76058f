import type { Phrase } from '../../phrases.ts';
import { bothSides } from './bothSides.ts';

/** What the sheet is judged by. */
export const checks: readonly Phrase[] = [
  ['Quench, cold', 'Quetschmaß, kalt'],
  ['Spread of ratio between cylinders', 'Unterschied der Verdichtung zwischen den Zylindern'],
  [
    'Mean piston speed at the highest speed',
    'Mittlere Kolbengeschwindigkeit bei der höchsten Drehzahl',
  ],
  ['Dynamic ratio for its fuel', 'Dynamische Verdichtung für den Kraftstoff'],
  ['Rod bolt stretch above the least wanted', 'Dehnung der Pleuelschrauben über dem Mindestmaß'],
  ['Rod bolt stretch beyond the most wanted', 'Dehnung der Pleuelschrauben über dem Höchstmaß'],
  [
    'Cranking compression, weakest against strongest',
    'Kompressionsdruck, schwächster gegen stärksten Zylinder',
  ],
  [
    'Bobweight used against the one that follows',
    'Verwendetes Meistergewicht gegen das berechnete',
  ],
  ['Rod big ends matched', 'Große Pleuelaugen, Gewichtsunterschied'],
  ['Rod small ends matched', 'Kleine Pleuelaugen, Gewichtsunterschied'],
  ['Pistons matched', 'Kolben, Gewichtsunterschied'],
  ['Cam against its card', 'Nockenwelle gegen ihre Karte'],
  ['Exhaust flow over intake flow', 'Verhältnis Auslass- zu Einlassdurchfluss'],
  ['Inlet Mach index at peak power', 'Mach-Index des Einlasses bei der größten Leistung'],
  [
    'Depression below the carburettor at peak power',
    'Unterdruck unter dem Vergaser bei der größten Leistung',
  ],
  [
    'Pressure lost at the open throttle, peak power',
    'Druckverlust an der offenen Drosselklappe, größte Leistung',
  ],
  ['Injectors open at the power intended', 'Einspritzventile offen bei der gewünschten Leistung'],
  ['Pump against the fuel wanted', 'Pumpe gegen den Kraftstoffbedarf'],
  ['Primary bore against the one to suit', 'Krümmerrohrdurchmesser gegen den passenden'],
  ['Oil pressure, hot', 'Öldruck, warm'],
  ['Oil pressure, hot idle', 'Öldruck, warmer Leerlauf'],
  ['Oil relief against the highest speed', 'Öl-Überdruckventil gegen die höchste Drehzahl'],
  ['Bore taper', 'Konizität der Bohrung'],
  ['Bore out of round', 'Unrundheit der Bohrung'],
  ['Bores, largest against smallest', 'Bohrungen, größte gegen kleinste'],
  ['Crank end float', 'Axialspiel der Kurbelwelle'],
  ['Crank run-out', 'Schlag der Kurbelwelle'],
  ['Rod side clearance', 'Seitliches Spiel der Pleuel'],
  ['Pin in the small end', 'Bolzen im kleinen Pleuelauge'],
  ['Top ring in its groove', 'Oberer Kolbenring in seiner Nut'],
  ['Second ring in its groove', 'Zweiter Kolbenring in seiner Nut'],
  ['Chambers, largest against smallest', 'Brennräume, größter gegen kleinsten'],
  ...bothSides([
    [
      'Discharge coefficient, intake, at the largest lift',
      'Durchflusszahl, Einlass, beim größten Hub',
    ],
    ['Intake lash, set less wanted', 'Einlass-Ventilspiel, eingestellt weniger gewünscht'],
    [
      'Intake spring, left to coil bind at full lift',
      'Einlass-Ventilfeder, Rest bis Block bei vollem Hub',
    ],
    [
      'Intake retainer to seal at full lift',
      'Einlassventil, Federteller zur Schaftdichtung bei vollem Hub',
    ],
    [
      'Intake spring over what inertia needs, highest speed',
      'Einlass-Ventilfeder gegen die Massenkraft, höchste Drehzahl',
    ],
    ['Intake rocker ratio against its name', 'Einlass-Kipphebelübersetzung gegen das Nennmaß'],
    [
      'Intake seat load against what is wanted',
      'Einlass-Ventilfeder, Kraft geschlossen gegen die gewünschte',
    ],
    ['Intake valve to the edge of its pocket', 'Einlassventil zum Taschenrand'],
    ['Intake valve to piston, computed', 'Einlassventil zum Kolben, berechnet'],
  ]),
  ['Pushrod against the length asked for', 'Stößelstange gegen die verlangte Länge'],
  ['Preload as a share of the proof load', 'Vorspannkraft als Anteil der Prüflast'],
  ['Least clamp over what pulls it apart', 'Geringste Klemmkraft gegen die trennende Kraft'],
  [
    'Clamp of a rod cap over the pull on it, highest speed',
    'Klemmkraft des Pleueldeckels gegen den Zug, höchste Drehzahl',
  ],
];
