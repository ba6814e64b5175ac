// One class of two people over a real relay: node scenario.mjs RELAY FOLDER. Exit code 0 when all went as it should.
import assert from 'node:assert/strict';
import { spawn, execFileSync } from 'node:child_process';
import { Client, Device, parseLink, sha256 } from './client.mjs';

const [relayProgram, folder] = process.argv.slice(2);
const impatience = setTimeout(() => {
  console.error('not done after 40 seconds, at:', step);
  process.exit(1);
}, 40_000);
let step = 'start';
const at = (words) => console.log((step = words));

function startRelay(port) {
  const relay = spawn(relayProgram, ['--data', folder, '--port', String(port), '--ops-port', '0'], { stdio: ['ignore', 'pipe', 'inherit'] });
  return new Promise((started) => {
    let said = '';
    relay.stdout.on('data', (data) => {
      said += data;
      if (said.includes('ready\n')) started({ relay, port: Number(/listening on \S+ port (\d+)/.exec(said)[1]) });
    });
  });
}

at('a relay with a key of its own, and a group');
let { relay, port } = await startRelay(0);
const added = execFileSync(relayProgram, ['--data', folder, '--link-port', String(port), 'group', 'add', 'Node voices']).toString();
const link = parseLink(/voicehall:\S+/.exec(added)[0]);

at('the leader comes by her link');
const leader = new Client(link, new Device(), { token: link.token, name: 'Ann' });
leader.connect();
const [welcome] = await Promise.all([leader.when('welcome'), leader.when('seats', (seats) => seats.whole)]);
assert.equal(welcome.role, 'leader');

at('somebody new knocks and is let in');
const home = new Client(link, new Device(), { code: welcome.code, name: 'Bo' });
home.connect();
const door = await leader.when('door', (each) => each.waiting.length === 1);
assert.equal(door.words.length, 4);
await Promise.all([home.when('welcome'), leader.request('letIn', { door: door.waiting[0].door })]);

at('a class is published and opened');
const turns = [['listen', 500], ['ready', 500], ['withMe', 500], ['yours', 2000]].map(([kind, ms]) => ({ kind, ms }));
const words = (text) => ({ text, stretches: [], note: '', rounds: [{ moreVoice: false, turns }, { moreVoice: true, turns }] });
const script = Buffer.from(JSON.stringify({
  title: 'Market day', theme: 'the market', language: 'en', minutes: 1,
  sections: [
    { kind: 'opening', title: 'Good morning', steps: [{ ...words('Good morning'), rounds: [{ moreVoice: false, turns: [{ kind: 'listen', ms: 60_000 }] }] }] },
    { kind: 'phrases', title: 'At the stall', steps: [words('Six apples, please'), words('How much is that?')] },
  ],
}));
await leader.request('partPut', { hash: sha256(script), base64: script.toString('base64') });
const [opened] = await Promise.all([
  leader.request('openClass', { title: 'Market day', parts: [sha256(script)] }),
  home.when('class'),
]);
const parted = new Promise((done) => home.once('part', (hash, bytes) => done({ hash, bytes })));
home.say({ type: 'partAsk', hash: home.open.parts[0] });
const part = await parted;
assert.equal(sha256(part.bytes), home.open.parts[0]);
const fetched = JSON.parse(part.bytes.toString('utf8'));

at('agreements, then the class begins and the home follows');
await home.request('agree', { kind: 'level-visible', value: 'leader', wording: 1 });
await home.request('agree', { kind: 'results-kept', value: 'yes', wording: 1 });
home.say({ type: 'today', voice: 'fine', checked: true });
const alive = setInterval(() => leader.say({ type: 'leading', lease: opened.lease }), 1000);
const press = (command) => leader.request('lead', { command, lease: leader.place.lease, serial: leader.place.serial });
await press('start');
await home.when('place', (place) => place.phase === 'running');
await press('goOn');
const turnOf = (place) => fetched.sections[place.place.section].steps[place.place.step].rounds[place.place.round].turns[place.place.turn];
const yours = await home.when('place', (place) => place.place.section === 1 && turnOf(place).kind === 'yours');
assert.equal(yours.turnLength, 2000);
assert.ok(Math.abs(home.clock.now() - yours.turnStartedAt) < 2000);

at('readings go up and the leader sees them');
const seen = new Promise((done) => {
  leader.on('roster', (roster) => {
    const entry = roster.entries.find((each) => each.seat === home.seat && each.overUsualDb !== null);
    if (entry) done(entry);
  });
});
home.sendReading({ turn: yours.turnSerial, elapsedMs: 500, heardMs: 400, voicedMs: 400, overUsualDb: 5.5, nowOverUsualDb: 6, trustPercent: 100 });
assert.deepEqual(await seen, { seat: home.seat, standing: 'notYet', overUsualDb: 5.5, voicedNow: true });

at('the turn is over and its result is acknowledged and judged');
const judged = new Promise((done) => {
  leader.on('roster', (roster) => roster.entries.some((each) => each.seat === home.seat && each.standing === 'inBand') && done());
});
await home.when('place', (place) => place.turnSerial > yours.turnSerial);
await home.request('turnResult', {
  turn: yours.turnSerial, elapsedMs: 2000, heardMs: 1500, voicedMs: 1500, overUsualDb: 5.4, nowOverUsualDb: 2, trustPercent: 100,
  reason: 'none', judge: 1, leakDb: -120, roomNormal: true, masked: false, voiceHeard: true, ceiling: 'clear',
});
await judged;
await press('wait');

at('the line breaks; what was missed comes with the welcome');
home.breakLine();
await new Promise((lost) => home.once('lost', lost));
const notice = await leader.request('notice', { text: 'Water, if you like' });
await home.when('welcome');
assert.equal(home.board.get(notice.item).text, 'Water, if you like');
assert.equal(home.place.serial, leader.place.serial);
assert.equal(home.place.phase, 'waiting');

at('the relay dies and comes back; both find their place and go on');
const before = { epoch: home.epoch, serial: home.place.serial };
relay.kill('SIGKILL');
const lineWhileDown = home.request('write', { text: 'Is it back?' }); // asked for until it is answered
const backAgain = Promise.all([home.when('welcome'), leader.when('welcome')]);
({ relay } = await startRelay(port));
await backAgain;
assert.notEqual(home.epoch, before.epoch);
assert.equal(home.place.serial, before.serial);
assert.ok((await lineWhileDown).item > 0);
await press('resume');
await home.when('place', (place) => place.phase === 'running' && place.serial > before.serial);

at('the end');
await press('end');
await home.when('place', (place) => place.line === 'ended');
home.leave();
await new Promise((lost) => home.once('lost', (code) => lost(assert.equal(code, 1000))));
clearInterval(alive);
leader.leave();
const ended = new Promise((done) => relay.once('exit', done));
relay.kill('SIGTERM');
assert.equal(await ended, 0);
clearTimeout(impatience);
