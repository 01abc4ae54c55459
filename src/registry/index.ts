export { dateOf, dayOf, dayOrNull } from './days.js';
export { momentOf } from './moment.js';
export { NamedRecords } from './named-records.repository.js';
export { Register } from './register.js';
export { EndDto, RegistryQuery } from './registry.dto.js';
export { RegistryModule } from './registry.module.js';
