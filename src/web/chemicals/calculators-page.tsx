import '../styles/chemicals.css';
import { type ReactNode, useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { number } from '../format.js';
import type { RecordField } from '../registry/record-fields.js';
import { RecordForm } from '../registry/record-form.js';
import { PageHead } from '../ui/page-head.js';
import { chemicalWords } from '../words/chemicals.js';
import { basesOf } from './bases.js';

const { calc, form } = chemicalWords;
const same = (values: readonly string[]) => values.map((value) => ({ value, label: value }));
const CHEMICALS = same(['sodium hypochlorite', 'sodium hydroxide', 'hydrochloric acid', 'citric acid']);
const REAGENTS = same(['sodium bisulfite', 'sodium metabisulfite', 'sodium sulfite', 'sodium thiosulfate', 'ascorbic acid', 'sodium ascorbate']);
const WAYS = Object.entries(calc.ways).map(([value, label]) => ({ value, label }));

const PRODUCT: readonly RecordField[] = [
  { name: 'productBasis', label: form.basis, hint: form.basisHint, optionsOf: ({ chemical = '' }) => basesOf(chemical), start: 'g/L' },
  {
    name: 'densityKgL',
    label: form.density,
    hint: form.densityHint,
    type: 'number',
    empty: 'left out',
    only: { field: 'productBasis', is: ['wt %', 'wt % Cl2', 'wt % NaOCl'] },
  },
];
const DOSE: readonly RecordField[] = [
  { name: 'chemical', label: calc.chemical, options: CHEMICALS, start: 'sodium hypochlorite' },
  { name: 'doseMgL', label: calc.doseMgL, type: 'number', required: true },
  { name: 'flowM3h', label: calc.flow, type: 'number', required: true },
  { name: 'productValue', label: calc.strength, type: 'number', required: true },
  ...PRODUCT,
  { name: 'ageDays', label: calc.age, hint: calc.ageHint, type: 'number', empty: 'left out', only: { field: 'chemical', is: ['sodium hypochlorite'] } },
  { name: 'storageC', label: calc.storage, type: 'number', empty: 'left out', only: { field: 'chemical', is: ['sodium hypochlorite'] } },
  { name: 'pumpLh', label: calc.pump, type: 'number', empty: 'left out' },
];
const BATCH: readonly RecordField[] = [
  { name: 'chemical', label: calc.chemical, options: CHEMICALS, start: 'sodium hypochlorite' },
  { name: 'volumeM3', label: calc.volume, type: 'number', required: true },
  { name: 'targetMgL', label: calc.targetMgL, type: 'number', empty: 'left out', required: true, only: { field: 'chemical', is: ['sodium hypochlorite'] } },
  {
    name: 'targetPh',
    label: calc.targetPh,
    type: 'number',
    empty: 'left out',
    required: true,
    only: { field: 'chemical', is: ['sodium hydroxide', 'hydrochloric acid'] },
  },
  { name: 'targetPercent', label: calc.targetPercent, type: 'number', empty: 'left out', required: true, only: { field: 'chemical', is: ['citric acid'] } },
  {
    name: 'productValue',
    label: calc.strength,
    type: 'number',
    empty: 'left out',
    required: true,
    only: { field: 'chemical', is: ['sodium hypochlorite', 'sodium hydroxide', 'hydrochloric acid'] },
  },
  { name: 'productValue', label: calc.strength, hint: calc.dry, type: 'number', empty: 'left out', only: { field: 'chemical', is: ['citric acid'] } },
  ...PRODUCT,
  {
    name: 'reagent',
    label: calc.reagent,
    options: REAGENTS,
    start: 'sodium bisulfite',
    empty: 'left out',
    only: { field: 'chemical', is: ['sodium hypochlorite'] },
  },
];
const TOGETHER: readonly RecordField[] = [
  { name: 'way', label: calc.way, options: WAYS, start: 'sequence' },
  { name: 'chemicals', label: calc.chemicals, hint: calc.chemicalsHint, type: 'lines', required: true },
];

const BAFFLINGS = same(['no baffles, mixed', 'no baffles', 'no baffles, diffusers', 'poor', 'average', 'superior', 'near plug flow', 'plug flow in a pipe']);
const SEGMENT: readonly RecordField[] = [
  { name: 'volumeM3', label: calc.vessel, type: 'number', required: true },
  { name: 'flowM3h', label: calc.peak, type: 'number', required: true },
  { name: 'baffling', label: calc.baffling, options: BAFFLINGS, start: 'poor' },
  { name: 'chlorineMgL', label: calc.chlorine, type: 'number', required: true },
  { name: 'temperatureC', label: calc.temperature, type: 'number', required: true },
  { name: 'ph', label: calc.ph, type: 'number', required: true },
];

export default function CalculatorsPage() {
  const [segments, setSegments] = useState<readonly Schemas['SegmentDto'][]>([]);
  return (
    <>
      <PageHead title={calc.title}>
        <p>
          {calc.usual} {calc.kept}
        </p>
      </PageHead>
      <Calculator
        title={calc.dose}
        fields={DOSE}
        send={(body: Schemas['DoseDto']) => api.POST('/api/calculators/dose', { body })}
        result={(answer: Schemas['DoseView']) => <DoseAnswer answer={answer} />}
      />
      <Calculator
        title={calc.batch}
        fields={BATCH}
        send={(body: Schemas['BatchDto']) => api.POST('/api/calculators/batch', { body })}
        result={(answer: Schemas['BatchView']) => <BatchAnswer answer={answer} />}
      />
      <Calculator
        title={calc.contact}
        fields={SEGMENT}
        button={calc.addSegment}
        send={async (body: Schemas['SegmentDto']) => {
          const all = [...segments, body];
          const answer = await api.POST('/api/calculators/contact-time', { body: { segments: all } });
          if (answer.response.ok) setSegments(all);
          return answer;
        }}
        result={(answer: Schemas['ContactTimeView']) => <ContactAnswer answer={answer} />}
      />
      {segments.length > 0 && (
        <p className="no-print">
          <button type="button" onClick={() => setSegments([])}>
            {calc.startAgain(number(segments.length))}
          </button>
        </p>
      )}
      <Calculator
        title={calc.together}
        fields={TOGETHER}
        send={({ way, chemicals }: { way: Schemas['TogetherDto']['way']; chemicals: string }) =>
          api.POST('/api/calculators/together', { body: { way, chemicals: linesOf(chemicals) } })
        }
        result={(answer: Schemas['TogetherView']) => <TogetherAnswer answer={answer} />}
      />
    </>
  );
}

const linesOf = (text: string) =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter(Boolean);

interface CalculatorProps<Answer> {
  readonly title: string;
  readonly fields: readonly RecordField[];
  readonly button?: string;
  readonly send: (body: never) => Promise<{ data?: Answer; error?: unknown; response: Response }>;
  readonly result: (answer: Answer) => ReactNode;
}

/** One calculator: what was entered stays, so that one figure can be changed and reckoned again. */
function Calculator<Answer>({ title, fields, button = calc.reckon, send, result }: CalculatorProps<Answer>) {
  const [start] = useState(() => Object.fromEntries(fields.map((field) => [field.name, field.start ?? ''])));
  return (
    <section className="block">
      <h2>{title}</h2>
      <RecordForm fields={fields} record={start} button={button} send={send} result={result} />
    </section>
  );
}

function Pairs({ pairs, notes }: { pairs: readonly (readonly [string, string] | null)[]; notes: readonly string[] }) {
  return (
    <div className="answer">
      <dl className="pairs">
        {pairs.flatMap((pair) =>
          pair === null
            ? []
            : [
                <div key={pair[0]}>
                  <dt>{pair[0]}</dt>
                  <dd>{pair[1]}</dd>
                </div>,
              ],
        )}
      </dl>
      {notes.map((note) => (
        <p key={note} className="hint">
          {note}
        </p>
      ))}
    </div>
  );
}

function DoseAnswer({ answer }: { answer: Schemas['DoseView'] }) {
  const { strengthGL, litresPerHour, mlPerMinute, litresPerDay, strokePercent, cautions } = answer;
  const stroke = strokePercent === null ? null : ([calc.stroke, `${number(strokePercent, 1)} %${strokePercent > 100 ? `: ${calc.tooSmall}` : ''}`] as const);
  return (
    <Pairs
      pairs={[
        [calc.perHour, `${number(litresPerHour, 3)} L/h = ${number(mlPerMinute, 2)} mL/min`],
        [calc.perDay, `${number(litresPerDay, 1)} L`],
        [calc.now, `${number(strengthGL, 1)} g/L`],
        stroke,
      ]}
      notes={cautions}
    />
  );
}

function BatchAnswer({ answer }: { answer: Schemas['BatchView'] }) {
  const { pureKg, productL, monohydrateKg, neutralise, isLowerBound, cautions } = answer;
  return (
    <Pairs
      pairs={[
        productL === null ? null : [calc.pour, `${number(productL, 2)} L`],
        [calc.pure, `${number(pureKg, 3)} kg`],
        monohydrateKg === null ? null : [calc.monohydrate, `${number(monohydrateKg, 2)} kg`],
        ...neutralise.map(({ name, kg }) => [calc.neutralise(name), `${number(kg, 3)} kg`] as const),
      ]}
      notes={[...(isLowerBound ? [calc.lowerBound] : []), calc.ninth, ...cautions]}
    />
  );
}

function ContactAnswer({ answer }: { answer: Schemas['ContactTimeView'] }) {
  const { segments, giardiaLog, virusLog, source } = answer;
  const cts = segments.map(({ t10Minutes, ct, giardia3LogCt, virus4LogCt, outside }, at) => {
    const reckoned = `T10 ${number(t10Minutes, 2)} min, CT ${number(ct, 2)} mg·min/L`;
    return [
      calc.segment(at + 1),
      outside === null ? `${reckoned}, ${calc.needs(number(giardia3LogCt), number(virus4LogCt))}` : `${reckoned}. ${outside}`,
    ] as const;
  });
  return (
    <Pairs pairs={[[calc.giardia, giardiaLog === null ? calc.outside : number(giardiaLog, 2)], [calc.virus, number(virusLog, 2)], ...cts]} notes={[source]} />
  );
}

function TogetherAnswer({ answer: { allowed, meetings } }: { answer: Schemas['TogetherView'] }) {
  if (allowed) return <p className="answer">{calc.allowed}</p>;
  return (
    <div className="answer">
      <p>
        <strong>{calc.refused}</strong>
      </p>
      <ul>
        {meetings.map(({ one, other, happens }) => (
          <li key={`${one} ${other}`}>{calc.meets(one, other, happens)}</li>
        ))}
      </ul>
    </div>
  );
}
