/** The shop's key: it says who made a hand-over, and lets a changed one be told apart (Ed25519, RFC 8032). */
import {
  createHash,
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  type KeyObject,
  sign,
  verify,
} from 'node:crypto';
import { StoreError } from '../../errors.ts';

/** DER before the 32 bytes of an Ed25519 public key in a SubjectPublicKeyInfo (RFC 8410, section 4). */
const SPKI_HEAD = Buffer.from('302a300506032b6570032100', 'hex');

export interface ShopKey {
  /** The public half: 32 bytes, base64. */
  readonly publicKey: string;
  sign(bytes: Uint8Array): string;
}

/** A fresh key as PEM text (PKCS #8), to be kept where nobody else reads it. */
export function newKeyPem(): string {
  return generateKeyPairSync('ed25519')
    .privateKey.export({ type: 'pkcs8', format: 'pem' })
    .toString();
}

/** @throws StoreError where the text is no Ed25519 key */
export function shopKey(pem: string, file: string): ShopKey {
  const key = readKey(pem, file);
  const der = createPublicKey(key).export({ type: 'spki', format: 'der' });
  return {
    publicKey: der.subarray(SPKI_HEAD.length).toString('base64'),
    sign: (bytes) => sign(null, bytes, key).toString('base64'),
  };
}

function readKey(pem: string, file: string): KeyObject {
  try {
    const key = createPrivateKey(pem);
    if (key.asymmetricKeyType === 'ed25519') return key;
  } catch {
    // Said below.
  }
  throw new StoreError(
    `The shop's signing key ${file} cannot be read; put back a copy of it, or move it away and a new one is made.`,
    { file, expected: 'an Ed25519 private key (PEM)' },
  );
}

/** Whether these bytes were signed with the key of this public half; false too where either is no such thing. */
export function isSignedBy(bytes: Uint8Array, signature: string, publicKey: string): boolean {
  try {
    const raw = Buffer.from(publicKey, 'base64');
    if (raw.length !== 32) return false;
    const key = createPublicKey({
      key: Buffer.concat([SPKI_HEAD, raw]),
      format: 'der',
      type: 'spki',
    });
    return verify(null, bytes, key, Buffer.from(signature, 'base64'));
  } catch {
    return false;
  }
}

/** Short name of a key for people to compare: the first 80 bits of its SHA-256, in fours. */
export function keyName(publicKey: string): string {
  const digest = createHash('sha256').update(Buffer.from(publicKey, 'base64')).digest('hex');
  return digest.slice(0, 20).match(/.{4}/g)!.join(' ');
}
