// A relay of our own, and how a promise is checked: one line `ok NAME` for each; the first failure ends it.

import { execFile, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { promisify } from 'node:util'
import { Refused } from '../line.mjs'

const program = process.argv[2]
if (!program) {
  console.error('usage: node run.mjs PATH-OF-RELAY')
  process.exit(2)
}

const data = await mkdtemp(join(tmpdir(), 'home-proof-'))
let relay = null

export async function startRelay(port) {
  const options = ['--data', data, '--port', String(port), '--ops-port', '0', '--tls', 'self-signed', '--host', '127.0.0.1']
  const child = spawn(program, options, { stdio: ['ignore', 'pipe', 'inherit'] })
  relay = child
  const ended = once(child, 'exit')
  const lines = createInterface({ input: child.stdout })
  const said = []
  const listening = await new Promise((resolve, reject) => {
    let seen = 0
    child.on('error', reject)
    child.on('exit', (code) => reject(new Error(`the relay ended with ${code}: ${said.join(' / ')}`)))
    lines.on('line', (line) => {
      said.push(line)
      seen = Number(/^listening on .* port (\d+)/.exec(line)?.[1] ?? seen)
      if (line === 'ready') resolve(seen)
    })
  })
  return { port: listening, async stop() { child.kill('SIGTERM'); return (await ended)[0] } }
}

export async function addGroup(port, name) {
  const { stdout } = await promisify(execFile)(program, ['--data', data, '--port', String(port), '--tls', 'self-signed',
    '--host', '127.0.0.1', 'group', 'add', name])
  return {
    group: /^group ([0-9a-f]{32})$/m.exec(stdout)[1], code: /^code (.+)$/m.exec(stdout)[1], link: /^voicehall:.*$/m.exec(stdout)[0]
  }
}

export async function cleanUp() {
  if (relay && relay.exitCode === null) relay.kill('SIGKILL')
  await rm(data, { recursive: true, force: true })
}

let failed = false
async function fail(name, error) {
  if (failed) return new Promise(() => {}) // the first failure ends it
  failed = true
  console.log(`failed ${name}: ${error.stack ?? error}`)
  await cleanUp()
  process.exit(1)
}

let now = 'start'
export const deadline = setTimeout(() => fail(now, new Error('50 s are over')), 50_000)
process.on('unhandledRejection', (error) => fail(now, error))

export async function check(name, promise) {
  now = name
  try {
    const value = await promise()
    console.log(`ok ${name}`)
    return value
  } catch (error) {
    return fail(name, error)
  }
}

export const refusal = async (promise) => {
  try {
    await promise
  } catch (error) {
    if (error instanceof Refused) return error.code
    throw error
  }
  return 'not refused'
}
