import { Type } from 'class-transformer';
import { ArrayMaxSize, IsArray, IsObject, ValidateNested } from 'class-validator';

/** A list of records, each checked. */
export function IsListOf(kind: new () => object, most: number): PropertyDecorator {
  return (target, key) => {
    for (const decorate of [IsArray(), ArrayMaxSize(most), IsObject({ each: true }), ValidateNested({ each: true }), Type(() => kind)]) decorate(target, key);
  };
}
