import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { NestFactory } from '@nestjs/core';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { DocumentBuilder, SwaggerModule } from '@nestjs/swagger';
import { AppModule } from '../app.module.js';
import { makeAdapter, setUpApp } from '../app.setup.js';

/** Run by openapi.mjs: `describe-api.js <metadata of the DTO classes> <file to write>`. */
const [metadataFile, outputFile] = process.argv.slice(2);
if (metadataFile === undefined || outputFile === undefined) throw new Error('Two arguments are needed: the metadata and the file to write');

// `preview` makes no provider: no database is needed to describe the service.
const module = AppModule.with({ databaseUrl: 'postgresql://nowhere', backgroundWork: false });
const app = await NestFactory.create<NestFastifyApplication>(module, makeAdapter(), { preview: true, logger: ['error'], abortOnError: false });
await setUpApp(app, { pagesFolder: undefined, openapiFile: undefined });
const { default: metadata } = (await import(pathToFileURL(join(metadataFile)).href)) as { default: () => Promise<Record<string, unknown>> };
await SwaggerModule.loadPluginMetadata(metadata);
const document = SwaggerModule.createDocument(app, new DocumentBuilder().setTitle('Skidkeep').setVersion('1').setOpenAPIVersion('3.1.0').build());
writeFileSync(outputFile, `${JSON.stringify(document, null, 2)}\n`);
process.exit(0);
