import { type KeyboardEvent, useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { problemOf } from '../api/problem.js';
import { Field } from '../ui/field.js';
import { repairWords as said } from '../words/repairs.js';

/** One piece by its serial number, and where it lies. */
export interface Piece {
  readonly partId: string;
  readonly name: string;
  readonly serialNumber: string;
  readonly placeId: string;
  readonly placeName: string;
}

/** More lines than this are not told apart by reading: a longer text finds fewer. */
const MOST = 200;
const SHOWN = 8;

const pieceOf = ({ partId, itemName, serialNumber, placeId, placeName, placeKind }: Schemas['StockLineView']): readonly Piece[] =>
  partId === null || serialNumber === null || placeKind === 'transit' || placeKind === 'repair'
    ? []
    : [{ partId, name: itemName, serialNumber, placeId, placeName }];

const labelOf = ({ name, serialNumber, placeName }: Piece) => said.lies(name, serialNumber, placeName);

interface PieceFieldProps {
  readonly id: string;
  readonly problem: string | undefined;
  readonly chosen: Piece | null;
  readonly onChosen: (piece: Piece | null) => void;
}

/** Finds one piece that lies somewhere, by its serial number or its item. */
export function PieceField({ id, problem, chosen, onChosen }: PieceFieldProps) {
  const [text, setText] = useState('');
  const [found, setFound] = useState<readonly Piece[]>([]);
  const [trouble, setTrouble] = useState('');
  const choose = (piece: Piece) => {
    setText('');
    setFound([]);
    setTrouble('');
    onChosen(piece);
  };
  const look = async () => {
    const find = text.trim();
    if (find === '') return;
    onChosen(null);
    const { data, error } = await api
      .GET('/api/stock', { params: { query: { find, limit: MOST } } })
      .catch((thrown: unknown) => ({ data: undefined, error: thrown }));
    if (data === undefined) return setTrouble(problemOf(error).title);
    const pieces = data.items.flatMap(pieceOf);
    const [only] = pieces;
    if (only !== undefined && pieces.length === 1) return choose(only);
    setFound(pieces.slice(0, SHOWN));
    setTrouble(pieces.length === 0 ? said.noPiece(find) : '');
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Enter') return;
    event.preventDefault();
    void look();
  };
  return (
    <div className="fields-one">
      <Field id={id} label={said.piece} hint={said.pieceHint} problem={trouble !== '' ? trouble : problem}>
        {(props) => (
          <div className="post-item">
            <input {...props} value={text} onChange={(event) => setText(event.target.value)} onKeyDown={onKeyDown} maxLength={100} autoComplete="off" />
            <button type="button" onClick={() => void look()}>
              {said.look}
            </button>
          </div>
        )}
      </Field>
      <div role="status">
        {chosen !== null && <p className="post-chosen">{labelOf(chosen)}</p>}
        {found.length > 0 && <p>{said.which}</p>}
      </div>
      {found.length > 0 && (
        <ul className="post-found">
          {found.map((piece) => (
            <li key={piece.partId}>
              <button type="button" onClick={() => choose(piece)}>
                {labelOf(piece)}
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
