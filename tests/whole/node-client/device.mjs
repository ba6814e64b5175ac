// A device: an Ed25519 key pair, and what it signs. Ids and hashes of the protocol.

import { createHash, createPrivateKey, createPublicKey, generateKeyPairSync, randomBytes, sign } from 'node:crypto'

export const SUBPROTOCOL = 'voicehall.1'

export const newId = () => randomBytes(16).toString('hex')
export const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex')

export class Device {
  #secret
  constructor(secret = generateKeyPairSync('ed25519').privateKey) {
    this.#secret = secret
    this.key = createPublicKey(secret).export({ type: 'spki', format: 'der' }).subarray(-32).toString('hex')
  }
  static fromSeed(hex) {
    const head = Buffer.from('302e020100300506032b657004220420', 'hex') // PKCS #8 around 32 bytes of seed
    return new Device(createPrivateKey({ key: Buffer.concat([head, Buffer.from(hex, 'hex')]), format: 'der', type: 'pkcs8' }))
  }
  sign(purpose, subject, nonce, role) {
    return sign(null, Buffer.from([SUBPROTOCOL, purpose, subject, nonce, role].join('\n'), 'ascii'), this.#secret).toString('hex')
  }
}
