import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Database, viewOf } from '../app/index.js';
import { insertLibrary } from './library/insert-library.repository.js';
import { LIBRARY_NAME } from './library/library.js';
import { LibraryLoadedView } from './rule-sets.dto.js';

/** Loads the starting library of rules and task sheets; a second time it finds everything there. */
@Injectable()
export class LoadLibrary {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async load(caller: Caller): Promise<LibraryLoadedView> {
    const inserted = await this.database.write((tx) => insertLibrary(tx, caller.name, this.clock.now()));
    return viewOf(LibraryLoadedView, { name: LIBRARY_NAME, ...inserted });
  }
}
