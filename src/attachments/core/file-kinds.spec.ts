import { describe, expect, test } from '@jest/globals';
import { dispositionOf, judgeFile } from './file-kinds.js';

describe('a file', () => {
  test.each(['image/jpeg', 'image/png', 'image/webp', 'application/pdf'])('that is %s is kept', (type) => {
    expect(judgeFile(type)).toEqual({ kind: 'kept', mediaType: type });
  });

  test.each(['image/svg+xml', 'application/xml', 'text/html', 'image/gif', 'application/zip', 'toString', undefined])(
    'that is %s is refused with what to send',
    (type) => {
      expect(judgeFile(type)).toMatchObject({ kind: 'refused', why: expect.stringContaining('send a photograph as JPEG, PNG or WebP') });
    },
  );

  test('that is a photograph of a kind few browsers show is refused with the way out', () => {
    expect(judgeFile('image/heic')).toMatchObject({ kind: 'refused', why: expect.stringContaining('send it as JPEG') });
  });
});

describe('the name of a file', () => {
  test('ends as its type does, whatever its sender called it', () => {
    expect(dispositionOf('image/png', 'evil.html')).toContain('filename="evil.png"');
    expect(dispositionOf('application/pdf', 'setup.exe.pdf')).toMatch(/^attachment; filename="setup\.exe\.pdf"/);
    expect(dispositionOf('text/html', 'page.html')).toMatch(/^attachment; filename="page\.bin"/);
  });

  test('cannot break out of the header', () => {
    expect(dispositionOf('image/jpeg', 'a"; filename="b.exe\r\nSet-Cookie: x=1')).not.toMatch(/[\r\n]|"b\.exe/);
    expect(dispositionOf('image/jpeg', '\u202egpj.exe')).not.toMatch(/\u202e/);
    expect(dispositionOf('image/jpeg', '\ud800.jpg')).toContain('.jpg');
  });

  test('keeps letters of every language', () => {
    expect(dispositionOf('image/jpeg', 'Kühlung 泵.jpg')).toBe('inline; filename="K_hlung _.jpg"; filename*=UTF-8\'\'K%C3%BChlung%20%E6%B3%B5.jpg');
    expect(dispositionOf('image/jpeg', '.jpg')).toContain('filename="file.jpg"');
  });
});
