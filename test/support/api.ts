import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import request from 'supertest';

type Method = 'get' | 'post' | 'put' | 'patch' | 'delete';

/** Sends requests to the running service the way a page of it does: with the Origin of the service and the cookie of a session. */
export class Api {
  constructor(
    readonly address: string,
    private readonly cookie?: string,
  ) {}

  static of(app: NestFastifyApplication): Api {
    const address = app.getHttpServer().address();
    if (address === null || typeof address === 'string') throw new Error('The service does not listen');
    return new Api(`http://127.0.0.1:${address.port}`);
  }

  async signIn(email: string, password: string): Promise<Api> {
    const answer = await this.post('/api/session', { email, password }).expect(200);
    return this.with(answer);
  }

  /** As the person whose session the answer began. */
  with(answer: request.Response): Api {
    const cookie = answer.get('set-cookie')?.[0]?.split(';')[0];
    if (cookie === undefined) throw new Error('The answer sets no cookie');
    return new Api(this.address, cookie);
  }

  get = (path: string) => this.call('get', path);
  post = (path: string, body?: object) => this.call('post', path).send(body);
  put = (path: string, body?: object) => this.call('put', path).send(body);
  patch = (path: string, version: number, body: object) => this.call('patch', path).set('if-match', `"${version}"`).send(body);
  delete = (path: string) => this.call('delete', path);

  call(method: Method, path: string): request.Test {
    const test = request(this.address)[method](path).set('origin', this.address);
    return this.cookie === undefined ? test : test.set('cookie', this.cookie);
  }
}
