export { RegistryModule } from './registry.module.js';
