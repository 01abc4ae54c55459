import { useEffect, useId, useState } from 'react';
import { deviceStore } from '../offline/device-store.js';
import { KEYS } from '../offline/kept-store.js';
import type { PhotoRef } from '../offline/parcel.js';
import { workWords } from '../words/work.js';
import { photosAt } from './draft.js';
import { controlId, useSheetForm } from './sheet-form.js';

/** As many as the service takes for one step. */
const MOST = 10;

/** Photographs that belong to one place of the sheet, and a large button for another one. */
export function PhotoEntry({ place, field, label }: { place: string; field: string; label: string }) {
  const { draft, problems, addPhoto, removePhotos } = useSheetForm();
  const hintId = useId();
  const [state, setState] = useState<{ readonly isBusy: boolean; readonly refused: string }>({ isBusy: false, refused: '' });
  const photos = photosAt(draft, place);
  const take = async (files: FileList | null) => {
    setState({ isBusy: true, refused: '' });
    const refused: string[] = [];
    for (const file of files ?? []) if ((await addPhoto(file, place)) === 'no picture') refused.push(file.name);
    setState({ isBusy: false, refused: refused.map(workWords.notAnImage).join(' ') });
  };
  const problem = problems[field] ?? (state.refused || undefined);
  return (
    <div className={problem === undefined ? 'photos' : 'photos field wrong'}>
      {problem !== undefined && (
        <p className="fix" role="alert" id={hintId}>
          {problem}
        </p>
      )}
      {photos.length > 0 && (
        <ul className="thumbs">
          {photos.map((photo, at) => (
            <li key={photo.id}>
              <Thumb photo={photo} name={workWords.photoOf(at + 1)} />
              <button type="button" onClick={() => removePhotos([photo.id])}>
                {workWords.remove}
                <span className="unseen"> {workWords.photoOf(at + 1)}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {photos.length >= MOST ? (
        <p className="hint">{workWords.photosEnough}</p>
      ) : (
        <label className="take-photo">
          <input
            type="file"
            id={controlId(field)}
            accept="image/*"
            capture="environment"
            aria-describedby={problem === undefined ? undefined : hintId}
            onChange={(event) => {
              void take(event.target.files).finally(() => {
                event.target.value = '';
              });
            }}
          />
          <span>{state.isBusy ? workWords.reducing : label}</span>
        </label>
      )}
    </div>
  );
}

function Thumb({ photo, name }: { photo: PhotoRef; name: string }) {
  const [url, setUrl] = useState<string>();
  useEffect(() => {
    let made: string | undefined;
    let isGone = false;
    void deviceStore
      .get<ArrayBuffer>(KEYS.photo(photo.id))
      .catch(() => undefined)
      .then((content) => {
        if (content === undefined || isGone) return;
        made = URL.createObjectURL(new Blob([content], { type: photo.mediaType }));
        setUrl(made);
      });
    return () => {
      isGone = true;
      if (made !== undefined) URL.revokeObjectURL(made);
    };
  }, [photo.id, photo.mediaType]);
  return url === undefined ? <span className="thumb">{name}</span> : <img className="thumb" src={url} alt={name} />;
}
