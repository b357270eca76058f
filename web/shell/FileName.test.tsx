import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { FileName, plainName } from './FileName.tsx';

describe('a file’s name on the screen', () => {
  it('is text: nothing hidden turns it, nothing in it runs, other scripts and signs stay', () => {
    expect(plainName('photo\u202egpj.exe')).toBe('photo\ufffdgpj.exe');
    expect(plainName('a\u0000b\nc\u2066d')).toBe('a\ufffdb\ufffdc\ufffdd');
    for (const name of ['צילום בלוק.jpg', '🔧👨‍🔧.jpg', '写真 1.png', 'क्रैंक.pdf'])
      expect(plainName(name)).toBe(name);
    expect(renderToStaticMarkup(<FileName name={'<img src=x onerror=alert(1)>.jpg'} />)).toBe(
      '<bdi class="file-name">&lt;img src=x onerror=alert(1)&gt;.jpg</bdi>',
    );
  });
});
