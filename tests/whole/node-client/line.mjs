// One line to a relay, and what its end means.

import { EventEmitter } from 'node:events'
import { Agent } from 'node:http'
import WebSocket from 'ws'
import { SUBPROTOCOL } from './device.mjs'
import { openSocket } from './way.mjs'

const APP = 'node-home 1'

// Events: 'text' (object), 'binary' (Buffer), 'closed' ({ code, reason }).
export class Line extends EventEmitter {
  static async open(where) {
    const { socket, pin } = await openSocket(where)
    const line = new Line()
    line.pin = pin
    line.socket = socket
    const agent = new Agent()
    agent.createConnection = () => socket
    const host = where.host.includes(':') ? `[${where.host}]` : where.host
    const ws = new WebSocket(`ws://${host}:${where.port}/hall`, [SUBPROTOCOL], { agent, perMessageDeflate: false })
    line.ws = ws
    ws.on('message', (data, isBinary) => {
      if (isBinary) line.emit('binary', data)
      else line.emit('text', JSON.parse(data.toString('utf8')))
    })
    ws.on('error', () => {}) // 'close' follows
    line.closed = new Promise((resolve) => ws.once('close', (code, reason) => {
      line.over = true
      const how = { code, reason: reason.toString('utf8') }
      line.emit('closed', how)
      resolve(how)
    }))
    await new Promise((resolve, reject) => {
      ws.once('open', resolve)
      ws.once('close', () => reject(new Error('the upgrade was refused')))
    })
    if (ws.protocol !== SUBPROTOCOL) throw new Error('the subprotocol was not confirmed')
    return line
  }
  send(message) { this.ws.send(JSON.stringify(message)) }
  sendBinary(bytes) { this.ws.send(bytes, { binary: true }) }
  sendTextBytes(bytes) { this.ws.send(bytes, { binary: false }) }
  sendRaw(bytes) { this.socket.write(bytes) }
  cut() { this.ws.terminate() }

  // The next text message for which `test` is true.
  next(test) {
    return new Promise((resolve, reject) => {
      const done = (settle, value) => { this.off('text', onText); this.off('closed', onClosed); settle(value) }
      const onText = (m) => { if (test(m)) done(resolve, m) }
      const onClosed = ({ code, reason }) => done(reject, new Error(`closed: ${code} ${reason}`))
      this.on('text', onText)
      this.on('closed', onClosed)
    })
  }
  async greet() {
    const answer = this.next((m) => m.type === 'challenge')
    this.send({ type: 'hello', min: 1, max: 1, features: [], app: APP })
    return answer
  }
}

export class Refused extends Error {
  constructor(message) { super(`refused: ${message.code} (${message.message})`); this.code = message.code }
}

// What a close code means for coming back.
export function comeAgain({ code, reason }) {
  if (code === 1001 || code === 1006) return true
  return code === 1008 && (reason === 'silent' || reason === 'too-slow')
}
