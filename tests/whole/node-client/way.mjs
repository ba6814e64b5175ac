// The way to a relay: its link, TLS and the key that is pinned.

import { createHash } from 'node:crypto'
import net from 'node:net'
import tls from 'node:tls'

export function parseLink(link) {
  const url = new URL(link)
  if (url.protocol !== 'voicehall:') throw new Error(`not a voicehall link: ${link}`)
  const where = { host: url.hostname.replace(/^\[|\]$/g, ''), port: Number(url.port || 443) }
  for (const part of url.hash.slice(1).split('&')) {
    const value = part.slice(2)
    if (part.startsWith('c=')) where.code = tidyCode(value)
    if (part.startsWith('t=')) where.token = value.toLowerCase()
    if (part.startsWith('k=')) where.pin = value
  }
  return where
}

export const tidyCode = (code) => code.replace(/[\s-]/g, '').toUpperCase()

// `security`: 'tls' (the default) or 'off', which is for tests. `unchecked`: somebody typed a code and has no pin yet.
export async function openSocket({ host, port, pin, security = 'tls', unchecked = false }) {
  if (security === 'off') {
    const socket = net.connect({ host, port })
    await settled(socket, 'connect')
    return { socket, pin: null }
  }
  const socket = tls.connect({
    host, port, minVersion: 'TLSv1.2', rejectUnauthorized: !pin && !unchecked, servername: net.isIP(host) ? '' : host
  })
  await settled(socket, 'secureConnect')
  const key = socket.getPeerX509Certificate().publicKey.export({ type: 'spki', format: 'der' })
  const seen = createHash('sha256').update(key).digest('base64url')
  if (pin && pin !== seen) {
    socket.destroy()
    throw new OtherKey()
  }
  return { socket, pin: seen }
}

export class OtherKey extends Error {
  constructor() { super("the relay's key is not the one of the link") }
}

function settled(socket, event) {
  return new Promise((resolve, reject) => {
    socket.once(event, () => { socket.off('error', reject); resolve() })
    socket.once('error', reject)
  })
}
