// The page's own texts, for tests that speak no language: by key, from the language's folder, as the program has them.
//
// CORDONRY_LANGUAGE names the folder, `en` unless told otherwise.
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { FluentBundle, FluentNumber, FluentResource } from '@fluent/bundle';

export const language = process.env.CORDONRY_LANGUAGE ?? 'en';

const HOME = fileURLToPath(new URL('../../crates/words/lang', import.meta.url));

/** The texts of one language: `say` and `like` by key. */
export class Words {
  /** `sources` are the contents of its files. */
  constructor(language, sources) {
    this.bundle = new FluentBundle(language, { useIsolating: false });
    this.plurals = new Intl.PluralRules(language);
    for (const source of sources) {
      const twice = this.bundle.addResource(new FluentResource(source));
      if (twice.length > 0) throw twice[0];
    }
  }

  static read(language) {
    const folder = join(HOME, language);
    if (!existsSync(folder)) throw new Error(`there are no texts in the language ${language}`);
    const files = readdirSync(folder).filter((name) => name.endsWith('.ftl')).sort();
    return new Words(language, files.map((name) => readFileSync(join(folder, name), 'utf8')));
  }

  /** The whole text. A value that it needs and that is not given is an error. */
  say(key, args = {}) {
    const values = Object.entries(args).map(([name, value]) => [name, typeof value === 'number' ? new FluentNumber(value, { useGrouping: false }) : value]);
    const errors = [];
    const text = this.bundle.formatPattern(this.pattern(key), Object.fromEntries(values), errors);
    if (errors.length > 0) throw new Error(`${key}: ${errors[0].message}`);
    return text;
  }

  /**
   * What matches the text in which values that are not given may be anything. A value that is a RegExp stands for
   * what it matches, another `like` for instance. Any space matches any, and at its head a letter its capital.
   */
  like(key, args = {}) {
    const source = this.source(this.pattern(key), args, key);
    const pattern = new RegExp(source.replace(/^((?:\(\?:)*)(\p{Ll})/u, (_, before, letter) => `${before}[${letter}${letter.toUpperCase()}]`));
    if (pattern.test('')) throw new Error(`${key} is like anything`);
    return pattern;
  }

  /** As `like`, and nothing before or after it. */
  whole(key, args = {}) {
    return new RegExp(`^\\s*${this.like(key, args).source}\\s*$`);
  }

  pattern(key) {
    const pattern = this.bundle.getMessage(key)?.value;
    if (pattern == null) throw new Error(`there is no text ${key}`);
    return pattern;
  }

  source(pattern, args, key) {
    if (typeof pattern === 'string') return literally(pattern);
    if (Array.isArray(pattern)) return pattern.map((part) => this.source(part, args, key)).join('');
    switch (pattern.type) {
      case 'str':
        return literally(pattern.value);
      case 'num':
        return literally(String(pattern.value));
      case 'var': {
        const value = args[pattern.name];
        if (value === undefined) return '[^]*?';
        return value instanceof RegExp ? `(?:${value.source})` : literally(String(value));
      }
      case 'mesg':
        return this.source(this.pattern(pattern.name), args, key);
      case 'select': {
        const given = pattern.selector.type === 'var' ? args[pattern.selector.name] : undefined;
        const open = given === undefined || given instanceof RegExp;
        const variants = open ? pattern.variants : [this.variant(pattern, given)];
        return `(?:${variants.map(({ value }) => this.source(value, args, key)).join('|')})`;
      }
      default:
        throw new Error(`${key}: no test knows yet what to make of its ${pattern.type}`);
    }
  }

  variant({ variants, star }, given) {
    const name = String(given);
    const is = (wanted) => ({ key }) => String(key.value) === wanted;
    const plural = typeof given === 'number' && variants.find(is(this.plurals.select(given)));
    return variants.find(is(name)) ?? (plural || variants[star]);
  }
}

function literally(text) {
  return text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&').replace(/\s+/g, '\\s+');
}

const words = Words.read(language);
export const say = words.say.bind(words);
export const like = words.like.bind(words);
export const whole = words.whole.bind(words);
