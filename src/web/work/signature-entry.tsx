import { type PointerEvent, useEffect, useId, useRef } from 'react';
import { deviceStore } from '../offline/device-store.js';
import { KEYS } from '../offline/kept-store.js';
import { workWords } from '../words/work.js';
import { photosAt } from './draft.js';
import { blobOf } from './reduce-photo.js';
import { useSheetForm } from './sheet-form.js';

const PLACE = 'signature';
const SIZE = { width: 640, height: 240 };

/** A drawn signature. The typed name is what counts, so that nobody needs a steady hand. */
export function SignatureEntry() {
  const { draft, addDrawing, removePhotos } = useSheetForm();
  const hintId = useId();
  const canvas = useRef<HTMLCanvasElement>(null);
  const isDown = useRef(false);
  const drawn = photosAt(draft, PLACE).map(({ id }) => id);
  useEffect(() => {
    const [id] = drawn;
    if (id !== undefined) void showKept(id, canvas.current);
  }, []);
  useEffect(() => {
    if (drawn.length === 0) canvas.current?.getContext('2d')?.clearRect(0, 0, SIZE.width, SIZE.height);
  }, [drawn.length]);

  const at = ({ nativeEvent: { offsetX, offsetY }, currentTarget }: PointerEvent<HTMLCanvasElement>) =>
    [(offsetX * SIZE.width) / currentTarget.clientWidth, (offsetY * SIZE.height) / currentTarget.clientHeight] as const;
  const begin = (event: PointerEvent<HTMLCanvasElement>) => {
    const pen = event.currentTarget.getContext('2d');
    if (pen === null) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    isDown.current = true;
    Object.assign(pen, { lineWidth: 4, lineCap: 'round', lineJoin: 'round', strokeStyle: '#17242a' });
    pen.beginPath();
    pen.moveTo(...at(event));
  };
  const draw = (event: PointerEvent<HTMLCanvasElement>) => {
    if (!isDown.current) return;
    const pen = event.currentTarget.getContext('2d');
    pen?.lineTo(...at(event));
    pen?.stroke();
  };
  const end = async ({ currentTarget }: PointerEvent<HTMLCanvasElement>) => {
    if (!isDown.current) return;
    isDown.current = false;
    const drawing = await blobOf(currentTarget, 'image/png');
    if (drawing !== null) await addDrawing(drawing, PLACE);
  };
  return (
    <div className="field">
      <p className="form-name">{workWords.drawn}</p>
      <p className="hint" id={hintId}>
        {workWords.drawnHint}
      </p>
      <canvas
        ref={canvas}
        {...SIZE}
        className="signature"
        role="img"
        aria-label={workWords.drawn}
        aria-describedby={hintId}
        onPointerDown={begin}
        onPointerMove={draw}
        onPointerUp={end}
        onPointerCancel={end}
      />
      {drawn.length > 0 && (
        <button type="button" onClick={() => removePhotos(drawn)}>
          {workWords.clear}
        </button>
      )}
    </div>
  );
}

/** A drawing that was made before the page was opened again. */
async function showKept(id: string, canvas: HTMLCanvasElement | null): Promise<void> {
  const content = await deviceStore.get<ArrayBuffer>(KEYS.photo(id)).catch(() => undefined);
  const picture = content === undefined ? undefined : await createImageBitmap(new Blob([content])).catch(() => undefined);
  if (picture !== undefined) canvas?.getContext('2d')?.drawImage(picture, 0, 0);
}
