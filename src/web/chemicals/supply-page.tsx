import { PageHead } from '../ui/page-head.js';
import { chemicalWords } from '../words/chemicals.js';
import { ClientSupply } from './client-supply.js';

export default function SupplyPage() {
  return (
    <>
      <PageHead title={chemicalWords.supply.title} />
      <ClientSupply alone />
    </>
  );
}
