import type { ReactNode } from 'react';
import { planningWords } from '../../words/planning.js';
import { rowField, rowsOf } from '../row-entries.js';
import { RowList } from '../row-list.js';
import { CONTACT } from './access-entries.js';

const said = planningWords.site;
const NOBODY = { name: '', role: '', phone: '', email: '' };

interface AccessProps {
  readonly entries: Readonly<Record<string, string>>;
  /** A field of one line, or of several */
  readonly input: (name: string, type: 'text' | 'lines' | 'email' | 'tel', hint?: string) => ReactNode;
  readonly set: (name: string) => (value: string) => void;
  readonly setRows: (list: string, rows: readonly Readonly<Record<string, string>>[]) => void;
}

/** How people get into a site, and whom to call there. */
export function AccessFields({ entries, input, set, setRows }: AccessProps) {
  const contacts = rowsOf(entries, 'contacts', CONTACT);
  return (
    <>
      <section className="block">
        <h2>{said.access}</h2>
        <label className="tick">
          <input type="checkbox" checked={entries.escort === 'yes'} onChange={({ target }) => set('escort')(target.checked ? 'yes' : '')} />
          <span>{said.escort}</span>
        </label>
        <div className="fields">
          {input('noticeDays', 'text', said.noticeHint)}
          {input('inductions', 'lines', said.inductionsHint)}
          {input('ferryOut', 'text', said.ferryOutHint)}
          {input('ferryBack', 'text')}
          {input('ferryMinutes', 'text')}
          {input('openMonths', 'text', said.openMonthsHint)}
          {input('accessNote', 'lines', said.accessNoteHint)}
        </div>
      </section>
      <RowList
        legend={said.contacts}
        one={said.contact}
        none={said.noContacts}
        add={said.addContact}
        count={contacts.length}
        onAdd={() => setRows('contacts', [...contacts, NOBODY])}
        onLeaveOut={(at) => setRows('contacts', contacts.toSpliced(at, 1))}
      >
        {(at) => CONTACT.map((field) => input(rowField('contacts', at, field), field === 'email' ? 'email' : field === 'phone' ? 'tel' : 'text'))}
      </RowList>
    </>
  );
}
