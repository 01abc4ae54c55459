import '../styles/upkeep.css';
import type { Schemas } from '../api/client.js';
import { Dialog } from '../ui/dialog.js';
import { Refusal } from '../ui/refusal.js';
import { Loaded } from '../ui/states.js';
import { useCall } from '../ui/use-call.js';
import { ruleWords } from '../words/rules.js';
import { skidRuleWords as said } from '../words/skid-rules.js';
import { DueChanges } from './due-changes.js';
import { follow, useFollowPreview } from './use-follow.js';

interface FollowProps {
  /** Null: no rule set */
  readonly versionId: string | null;
  readonly skidIds: readonly string[];
  readonly onMoved?: (answer: Schemas['FollowedView'] | undefined) => void;
}

/** What becomes of the due list of the skids under a version, and the button that makes it so. */
export function FollowDialog({ title, onClose, ...rest }: FollowProps & { title: string; onClose: () => void }) {
  return (
    <Dialog title={title} onClose={onClose}>
      {(close) => <FollowPreview {...rest} close={close} />}
    </Dialog>
  );
}

export function FollowPreview({ versionId, skidIds, onMoved, close }: FollowProps & { close: () => void }) {
  const { call, isBusy, problem } = useCall();
  const preview = useFollowPreview(versionId, skidIds);
  return (
    <>
      <p className="hint">{said.previewNote}</p>
      <Refusal problem={problem} />
      <Loaded of={preview} what={said.whatPreview}>
        {(found) => <DueChanges preview={found} />}
      </Loaded>
      <div className="row">
        <button
          type="button"
          className="main-button"
          disabled={isBusy || preview.data === undefined}
          onClick={() =>
            void call(
              () => follow(versionId, skidIds),
              (answer) => {
                onMoved?.(answer);
                close();
              },
            )
          }
        >
          {versionId === null ? said.confirmLeave : said.confirm(skidIds.length)}
        </button>
        <button type="button" onClick={close}>
          {ruleWords.cancel}
        </button>
      </div>
    </>
  );
}
