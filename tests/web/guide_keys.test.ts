import { describe, expect, it } from 'vitest';
import { canStayAwake } from '../../web/src/guide/awake';
import { meaning, taken, targetOf } from '../../web/src/guide/keys';
import { troubleOf, troubleText } from '../../web/src/guide/trouble';

describe('the keys of the guide', () => {
  it('are done, pause and something is wrong, from anywhere on the page', () => {
    expect(['Enter', ' ', 'Escape', 'x'].map((key) => meaning(key, 'page'))).toEqual(['done', 'pause', 'wrong', null]);
  });
  it('pause with the space bar although the main button has the focus', () => {
    expect(meaning(' ', 'main')).toBe('pause');
    expect(meaning('Enter', 'main')).toBe('done');
  });
  it('leave Enter to another control, spaces to a field, and everything to an open sheet', () => {
    expect(meaning('Enter', 'control')).toBeNull();
    expect(meaning(' ', 'typing')).toBeNull();
    expect(meaning('Enter', 'typing')).toBe('done');
    expect(['Enter', ' ', 'Escape'].map((key) => meaning(key, 'dialog'))).toEqual([null, null, null]);
  });
  it('are left to the page where nobody does what they mean', () => {
    const done = () => undefined;
    expect(taken('Enter', 'main', { done })).toBe('done');
    expect(taken('Enter', 'main', { done: undefined })).toBeNull();
    expect(taken(' ', 'control', { done })).toBeNull();
    expect(taken(' ', 'control', { done, pause: done })).toBe('pause');
    expect(taken('Escape', 'page', { done })).toBeNull();
  });
  it('know where a key goes', () => {
    const page = document.createElement('div');
    page.innerHTML =
      '<button class="main">a</button><button>b</button><input><dialog open><button>c</button></dialog><p>d</p>';
    const at = (css: string) => targetOf(page.querySelector(css));
    expect([at('button.main'), at('button:not(.main)'), at('input'), at('dialog button'), at('p')]).toEqual([
      'main',
      'control',
      'typing',
      'dialog',
      'page',
    ]);
    expect(targetOf(null)).toBe('page');
  });
});

describe('a trouble as its step keeps it', () => {
  it('comes back with its kind and what was said', () => {
    expect(troubleOf(troubleText('chatter', ''))).toEqual({ kind: 'chatter', said: '' });
    expect(troubleOf(troubleText('other', ' a nut: on the floor '))).toEqual({
      kind: 'other',
      said: 'a nut: on the floor',
    });
    expect(troubleOf('typed elsewhere')).toEqual({ kind: 'other', said: 'typed elsewhere' });
  });
});

describe('staying awake', () => {
  it('needs a secure page and a browser that can', () => {
    expect(canStayAwake({ isSecureContext: true, navigator: { wakeLock: {} } })).toBe(true);
    expect(canStayAwake({ isSecureContext: false, navigator: { wakeLock: {} } })).toBe(false);
    expect(canStayAwake({ isSecureContext: true, navigator: {} })).toBe(false);
  });
});
