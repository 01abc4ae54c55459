import { words } from '../words.js';
import { PageHead } from './page-head.js';

export function NotFound() {
  return (
    <>
      <PageHead title={words.notFound.title} />
      <p>{words.notFound.text}</p>
    </>
  );
}
