import { planWords } from '../../words/plan.js';
import { ANCHOR, breakPath, NIGHT } from './strip-marks.js';

const { key } = planWords;

/** What the pieces and marks of the lines mean. */
export function StripKey() {
  return (
    <>
      <ul className="strip-key">
        <Entry name={key.way}>
          <path d="M1 10H31" className="lane-way" />
        </Entry>
        <Entry name={key.work}>
          <path d="M1 10H31" className="lane-work" />
        </Entry>
        <Entry name={key.break}>
          <path d={breakPath(6, 26, 10)} className="lane-break" />
        </Entry>
        <Entry name={key.promised}>
          <path d={ANCHOR} transform="translate(16 11)" className="lane-anchor" />
        </Entry>
        <Entry name={key.limit}>
          <path d="M18 3v14m-4 -14h4m-4 14h4" className="lane-limit" />
        </Entry>
        <Entry name={key.night}>
          <path d={NIGHT} transform="translate(14 11)" className="lane-night" />
        </Entry>
        <li>{key.slack}</li>
      </ul>
      <p className="hint">{planWords.estimated}</p>
    </>
  );
}

function Entry({ name, children }: { name: string; children: React.ReactNode }) {
  return (
    <li>
      <svg width={32} height={20} aria-hidden="true" focusable="false">
        {children}
      </svg>
      {name}
    </li>
  );
}
