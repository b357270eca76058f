import { CHARTS_IN_ENGLISH } from '../../../../chartWords.ts';
import type { Words } from '../types.ts';

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

const one = (count: number, word: string) => `${count} ${word}${count === 1 ? '' : 's'}`;

export const en: Words = {
  language: 'en',
  name: 'English',
  decimalComma: false,
  date(iso) {
    const [year, month, day] = iso.slice(0, 10).split('-');
    const name = MONTHS[Number(month) - 1];
    return name === undefined ? iso : `${Number(day)} ${name} ${year}`;
  },
  title: 'Hand-over of an engine',
  page: ['Page ', ' of '],
  parts: { open: 'Open every part', fold: 'Fold every part' },
  foot: (shop, engine) => `${shop} · ${engine}`,
  notKnown: 'not known',
  yes: 'yes',
  no: 'no',
  interval: (value, low, high, unit) => `${value} ${unit} (${low} to ${high})`,
  at: (speed) => `at ${speed} rpm`,
  range: (from, to, unit) => `${from} to ${to} ${unit}`,
  list: (items) =>
    items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`,
  charts: CHARTS_IN_ENGLISH,
  replay: {
    time: 'time',
    speed: 'engine speed',
    inTime: ({ line, pull, day }) =>
      line === ''
        ? `Drawn in the time of ${pull}, ${day}.`
        : `${line}: in ${pull === '' ? 'its own time' : `the time of ${pull}`}, ${day}.`,
    atSameSpeed: (line) =>
      `${line}: its own time is not known; drawn to the engine speed that the other has reached.`,
    readme:
      '{first} to {last}: {count} pictures of {size} pixels, {perSecond} a second, {length} s in all.\nThe sweep takes {sweep} s as it was recorded; for the last {still} s the finished picture stands.\nA film editor takes them as a numbered sequence; set it to {perSecond} pictures a second, or the time is not the engine’s own.',
  },
  head: {
    engine: 'Engine',
    serial: 'Serial',
    build: 'Build',
    owner: 'Owner',
    madeOn: 'Made on',
    madeBy: 'Made by',
    displacement: 'Displacement',
    cylinders: 'Cylinders',
    compressionRatio: 'Compression ratio',
    fuel: 'Fuel',
    tested: 'Tested',
  },
  invented: 'The demo of the program: nobody and nothing in it is real.',
  findings: {
    title: 'What was found',
    peakPower: 'Peak power',
    peakTorque: 'Peak torque',
    meanPower: 'Mean power',
    meanTorque: 'Mean torque',
    basis: ({ air, pulls }) =>
      `From ${one(pulls, 'pull')} ${air}; under each figure stands its 95 % interval.`,
    air: (standard) =>
      standard === 'none'
        ? 'in the air of the day, not corrected'
        : `in the standard air of ${standard}`,
    noCurve: 'No pull of these days has a curve, so nothing is said of power or torque.',
    typedPeaks:
      'No pull of these days has a curve. These peaks were typed in by hand, as somebody read them; no recording shows them, so they stand without an interval and nothing was converted.',
    lambda: 'lambda',
    typedAir: (air) =>
      air === 'unknown'
        ? 'nobody said in what air'
        : air === 'observed'
          ? 'as observed, not in standard air'
          : `said to be in the standard air of ${air}`,
    moreTyped: (count) =>
      `${count === 1 ? '1 more typed pull stands' : `${count} more typed pulls stand`} in the table of pulls.`,
    curve: 'Torque and power',
    curveCaption: (pulls) =>
      `Mean of ${pulls}. The shaded band holds the true curve with 95 %: noise, pull to pull, and the calibration of the cell.`,
    before: 'before',
    now: 'this build',
    settings: 'What was left in the engine',
    noDecision: 'Nobody has decided on a setting yet.',
    left: ({ setting, use, who, date, why }) =>
      `${setting} for ${use}, decided${who === '' ? '' : ` by ${who}`} on ${date}${why === '' ? '.' : `: ${/[.!?]$/.test(why) ? why : `${why}.`}`}`,
    advised: (value) =>
      value === null ? 'Pullbook had no advice to give then.' : `Pullbook advised ${value} then.`,
    gainTitle: (before) => `Against “${before}”`,
    gain: ({ before, percent, low, high, band, word }) =>
      ({
        real: `Over ${band} it has ${percent} % more mean power than “${before}” (${low} to ${high} %).`,
        small: `Over ${band} it has ${percent} % more mean power than “${before}” (${low} to ${high} %): there, but less than is worth having.`,
        'cannot be told from chance': `Over ${band} the mean power cannot be told from that of “${before}”: ${percent} % (${low} to ${high} %).`,
        loss: `Over ${band} it has less mean power than “${before}”: ${percent} % (${low} to ${high} %).`,
      })[word],
    region: ({ gain, from, to, most, at }) =>
      `${gain ? 'Gains' : 'Gives up'} torque from ${from} to ${to} rpm, at most ${most} % at ${at} rpm.`,
    noRegion: 'At no speed can the two be told apart.',
    crossing: (speed, low, high) => `The curves cross at ${speed} rpm (${low} to ${high}).`,
    noComparison: 'There is no build before it that it could be held against.',
    cautions: 'To be careful about',
    noCautions: 'Nothing stood out that the owner has to be careful about.',
    inEnglish: '',
    limits:
      'This report says what was measured on the dynamometer on the days named. Fuel, air, load and wear in use are not those of the cell; stay below the limits of the engine and listen for knock. It replaces neither the cell’s own shutdowns nor the judgement of a qualified person, and local codes have the last word.',
  },
  settings: {
    title: 'What to set',
    lead: 'Spark lead',
    lambda: 'Lambda',
    best: 'Best',
    knee: 'Knee: more hardly pays',
    limit: 'Limit',
    notWatched: 'Nobody watched for knock on every pull; no limit is known.',
    forUse: (use) => `For ${use}`,
    what: 'What',
    setting: 'Setting',
    interval: '95 % interval',
    above: (setting) => `above ${setting}`,
    below: (setting) => `below ${setting}`,
    givesUp: 'Gives up',
    why: 'Why',
    step: 'Step',
    gain: 'Gain of mean power',
    word: 'In a word',
    words: {
      real: 'real',
      small: 'small',
      'cannot be told from chance': 'cannot be told from chance',
      loss: 'loss',
    },
  },
  evidence: {
    title: 'Evidence',
    how: 'How it was measured',
    day: (name) => `Test day ${name}`,
    date: 'Date',
    cell: 'Cell',
    inertia: 'Turning with the crank',
    inertiaUnknown: 'not known; the torque that sped it up is not put back',
    calibrated: 'Torque calibration',
    calibratedOn: (date, due) =>
      due === null ? `done on ${date}` : `done on ${date}, due on ${due}`,
    neverCalibrated: 'none in the record; a usual uncertainty is taken',
    air: 'Air of the figures',
    fuel: 'Fuel',
    octane: 'Octane',
    batch: 'Batch',
    configuration: 'As it stood',
    configured: {
      exhaust: 'exhaust',
      airCleaner: 'air cleaner',
      accessories: 'driven accessories',
      oil: 'oil',
      plugs: 'plugs',
      baseTimingDeg: 'base timing, degrees',
      leadSetBy: 'lead set and checked',
      distributorCurve: 'distributor curve',
      other: 'else',
    },
    notes: 'Notes',
    pulls: 'Every pull, used or left out',
    pullsNote:
      'Factor: what observed torque was multiplied by to stand in the air of the figures. Rate: of the sweep.',
    pull: 'Pull',
    pullsNamed: (numbers) =>
      numbers.length === 1 ? `pull ${numbers[0]}` : `pulls ${en.list(numbers)}`,
    unnamedDay: 'without name or date',
    file: 'File',
    lead: 'Lead',
    lambda: 'λ',
    airPressure: 'Air',
    airTemperature: 'Air temp.',
    humidity: 'Humidity',
    factor: 'Factor',
    sweep: 'Rate, rpm/s',
    peakTorque: 'Torque',
    peakPower: 'Power',
    counted: 'Counted',
    inCurve: 'in the curve',
    usedToo: 'yes',
    leftOut: (why) => `left out: ${why}`,
    aborted: 'left out: aborted',
    noPull: 'No pull was made on this day.',
    marks: 'What stood out',
    curves: (day) => `All pulls of ${day}`,
    curvesCaption: 'Each pull with its own band. Pulls that were left out are faint.',
    response: (ladder) => `${ladder}: mean power against the setting`,
    responseCaption: (unit) =>
      `Dots are pulls; the band is what they leave possible. Setting in ${unit === '' ? 'its own measure' : unit}.`,
    gains: (ladder) => `${ladder}: what each step gained, by speed`,
    gainsCaption: 'Inside the grey band chance could do it.',
    steps: 'Steps',
    bySpeed: 'Torque and power by speed',
    bySpeedNote: (standard) =>
      `${standard === 'none' ? 'As observed' : `In the air of ${standard}`}. Low and high: the 95 % band of torque.`,
    speed: 'Speed, rpm',
    torque: 'Torque',
    power: 'Power',
    low: 'Low',
    high: 'High',
  },
  sheet: {
    title: 'The build sheet',
    none: 'This build has no sheet.',
    summary: (counts) =>
      `${one(counts.fine, 'check')} fine, ${counts['look again']} to look at again, ${counts.stop} to stop at, ${counts['not known']} not known.`,
    verdicts: { fine: 'fine', 'look again': 'look again', stop: 'stop', 'not known': 'not known' },
    checks: 'Checks',
    check: 'Check',
    verdict: 'Verdict',
    value: 'Value',
    window: 'Window',
    source: 'Where the window comes from',
    figures: 'What follows from it',
    figure: 'Figure',
    toMeasure: 'Not measured, the most telling first',
    remedy: 'What would bring it right',
    below: (value) => `up to ${value}`,
    above: (value) => `from ${value}`,
  },
  changes: {
    title: (before) => `What changed since “${before}”`,
    none: 'The sheets of the two builds say the same.',
    noSheets: 'Not both builds have a sheet, so what changed in them is not known.',
    parts: 'Parts',
    added: (name, where) => `new: ${name} (${where})`,
    gone: (name, where) => `gone: ${name} (${where})`,
    moved: (name, from, to) => `moved: ${name}, from ${from} to ${to}`,
    verdicts: 'Checks that now say otherwise',
    verdictWent: (before, after) => `from ${before} to ${after}`,
    computed: 'What follows',
    measured: 'What was measured',
    stated: 'What was stated',
    tables: (labels) => `Tables of the sheet that differ: ${labels}.`,
    onlyOne: (count) =>
      `${one(count, 'more value')} ${count === 1 ? 'is' : 'are'} known of one of the two builds only, and cannot be held against each other.`,
    what: 'What',
    before: 'Before',
    after: 'Now',
    difference: 'Difference',
    percent: 'Part',
    gainBySpeed: (name) => `What ${name} has over the build before, by speed`,
    gainBySpeedCaption: 'Inside the grey band chance could do it.',
  },
  plan: {
    title: (day) => `Test plan of ${day}, as ticked`,
    none: 'No test plan was kept.',
    made: (date) => `Made on ${date}.`,
    ticked: (by, at) => `done${by === '' ? '' : ` by ${by}`}, ${at}`,
    open: 'not ticked',
    struck: (by, reason) => `struck${by === '' ? '' : ` by ${by}`}: ${reason}`,
    changed: 'changed since it was ticked, open again',
  },
  notes: 'From the shop',
  check: {
    title: 'How to check this report',
    how: 'Everything in it is frozen, and stands with the recordings it came from in one bundle (a zip archive). The command “pullbook verify FILE” computes every figure again from those recordings and says which do not follow. The bundle can be read without Pullbook: its README.txt says how.',
    key: 'Public key of the shop (Ed25519, base64)',
    keyName: 'Its short name, to be compared by voice',
    versions: 'Versions of the computations',
    standard: 'Standard of the air',
    recordings: 'Recordings',
    recording: 'File',
    digest: 'SHA-256',
    bands:
      'All intervals are 95 %: they hold noise within a pull, how two pulls of one setting differ, and the calibration of the cell. What cannot be told from chance is said to be so.',
  },
};
