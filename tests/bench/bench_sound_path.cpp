// The whole way of a voice, really played and really captured on a sound server of the bench's own: from the leader's
// room to a home's by correlation, and the cue against what is heard there by the same. The same way over the real
// relay and a line with bad days, for a minute (sound_path_line.h). And a home's chain without a device: how many times
// faster than real time one core decodes, evens out, tells the loudspeaker from the person and meters. Where no sound
// server can be started the first part is left out, with a word.
#include "app/sound/ears.h"
#include "app/sound/loudspeaker.h"
#include "app/sound/talk.h"
#include "common/echo/clean_ear.h"
#include "common/echo/two_copies.h"
#include "common/sound/voice_sender.h"
#include "common/voice/voice.h"
#include "tests/bench/bench_figure.h"
#include "tests/bench/sound_path_line.h"
#include "tests/bench/sound_path_match.h"
#include "tests/bench/sound_path_room.h"

#include <QApplication>
#include <QEventLoop>

#include <sndfile.h>

#include <deque>

using namespace vh;
using namespace vh::bench;

namespace
{

constexpr int kSeconds = 85;
constexpr std::uint64_t kFramesBetweenChanges = 15; // 300 ms

std::vector<float> speech(int seconds, double levelDbfsA)
{
    std::vector<float> samples;
    for (std::uint64_t seed = 1; samples.size() < static_cast<std::size_t>(seconds) * 48'000; ++seed) {
        voice::Utterance utterance;
        utterance.text = seed % 2
                             ? "They filled it with dark earth up to the seats, and set a pole where the mast had been."
                             : "By noon the lake was bright, and nine small boats lay along the wooden wall.";
        utterance.levelDbfsA = levelDbfsA;
        utterance.silentSeconds = 0.15;
        const auto sound = voice::render(utterance, {}, seed);
        samples.insert(samples.end(), sound.samples.begin(), sound.samples.end());
    }
    return samples;
}

bool writeWav(const QString& path, const std::vector<float>& samples)
{
    SF_INFO info{};
    info.samplerate = 48'000;
    info.channels = 1;
    info.format = SF_FORMAT_WAV | SF_FORMAT_FLOAT;
    SNDFILE* const file = sf_open(path.toLocal8Bit().constData(), SFM_WRITE, &info);
    const bool written = file && sf_writef_float(file, samples.data(), static_cast<sf_count_t>(samples.size())) > 0;
    return file && sf_close(file) == 0 && written;
}

struct Change {
    std::uint64_t sample = 0; ///< of the stream: the first of the frame behind the place
    Micros shown{};           ///< when the cue changed
};

/// What a run leaves behind.
struct Heard {
    std::vector<float> left; ///< at 8 kHz: the leader's room, the home's, and the stream as decoded
    std::vector<float> right;
    std::vector<float> stream;
    std::uint64_t streamBegin = 0;
    std::vector<Change> changes;
    std::vector<double> shownAt; ///< 8 kHz samples of the witness's count, for each change
    double latencyMs = 0;
    double spreadMs = 0;
};

Heard run(const QString& wav, TwoRooms& rooms)
{
    Heard heard;
    VoiceMix mix;
    sound::MixFeed feed(mix);
    const auto farEnd = std::make_shared<sound::FarEnd>();
    sound::Loudspeaker loudspeaker(feed, farEnd);
    sound::Ears ears;
    sound::Talk talk(ears, 7);
    SystemClock clock;
    std::vector<float> stream;
    VoiceDecoder decoder;
    std::deque<Change> waiting;
    std::uint64_t frames = 0;
    talk.begin([&](const wire::SoundHead& head, std::span<const std::uint8_t> payload) {
        if (stream.empty())
            heard.streamBegin = head.firstSample;
        stream.resize(head.firstSample - heard.streamBegin + kSoundFrame);
        decoder.decode(payload, std::span(stream).last<kSoundFrame>());
        if (++frames % kFramesBetweenChanges == 0 && frames > 150)
            waiting.push_back({head.firstSample, {}});
        mix.leader().arrive(head, payload, clock.now());
    });
    QTimer cue;
    cue.setTimerType(Qt::PreciseTimer);
    QObject::connect(&cue, &QTimer::timeout, [&] {
        const HeardUpTo upTo = loudspeaker.audibleUpTo();
        while (!waiting.empty() && upTo.stream == 7 && upTo.sample >= waiting.front().sample) {
            waiting.front().shown = steadyNow();
            heard.changes.push_back(waiting.front());
            waiting.pop_front();
        }
    });
    if (!QTest::qWaitFor([&] { return !ears.devices().isEmpty() && !loudspeaker.devices().isEmpty(); }, 10'000))
        std::puts("# the server's devices do not show");
    Witness witness(kSeconds);
    loudspeaker.start(sound::DeviceChoice::deviceOf("home"));
    ears.start(sound::DeviceChoice::deviceOf("leadermic"));
    cue.start(10);
    rooms.server().play(wav, "leader");
    QEventLoop loop;
    QTimer::singleShot(std::chrono::seconds(kSeconds - 5), &loop, &QEventLoop::quit);
    loop.exec();
    heard.latencyMs = static_cast<double>(loudspeaker.latency().value_or(Millis{0}).count());
    talk.end();
    ears.stop();
    loudspeaker.stop();
    witness.stop();
    witness.fit();
    heard.spreadMs = witness.spreadMs;
    for (const Change& change : heard.changes)
        heard.shownAt.push_back((static_cast<double>(change.shown.count()) - witness.soundedAtMicros(0)) * 8 / 1000);
    heard.left = at8kHz(witness.left);
    heard.right = at8kHz(witness.right);
    heard.stream = at8kHz(stream);
    return heard;
}

double percentile(std::vector<double> values, double share)
{
    std::sort(values.begin(), values.end());
    return values[std::min(values.size() - 1, static_cast<std::size_t>(share * static_cast<double>(values.size())))];
}

void onTheServer(Figures& figures)
{
    TwoRooms rooms;
    if (!rooms.start()) {
        std::printf("# no sound server can be run here: %s\n", qPrintable(rooms.server().reason()));
        return;
    }
    QTemporaryDir folder;
    const QString wav = folder.filePath("speech.wav");
    if (!writeWav(wav, speech(kSeconds, -26)))
        return;
    const Heard heard = run(wav, rooms);
    std::vector<double> wayMs;
    std::vector<double> skewMs;
    std::size_t unlike = 0;
    for (std::size_t i = 0; i < heard.changes.size(); ++i) {
        constexpr std::size_t kAround = 1600; // 200 ms at 8 kHz, the change in the middle
        const auto target = static_cast<double>(heard.changes[i].sample - heard.streamBegin) / 6;
        const auto from = static_cast<std::size_t>(target) - kAround / 2;
        if (from + kAround > heard.stream.size())
            continue;
        const auto what = std::span(heard.stream).subspan(from, kAround);
        const auto guess = std::lround(heard.shownAt[i]) - static_cast<long>(kAround / 2);
        const auto there = find(what, heard.right, guess, 2400);
        const auto here = there ? find(what, heard.left, std::lround(*there) - 1600, 1600) : std::nullopt;
        if (!there || !here) {
            ++unlike;
            continue;
        }
        wayMs.push_back((*there - *here) / 8);
        const double soundsAt = *there + target - static_cast<double>(from);
        skewMs.push_back((heard.shownAt[i] - soundsAt) / 8);
    }
    std::printf(
        "# %zu changes, %zu in pauses or not found; loudspeaker latency as told %.0f ms; witness sure to %.1f ms\n",
        heard.changes.size(), unlike, heard.latencyMs, heard.spreadMs);
    figures.atLeast("cue_changes_compared", static_cast<double>(skewMs.size()), "changes", 200);
    if (skewMs.empty())
        return;
    Figures::spread("sound_end_to_end", spreadOf(wayMs), wayMs.size());
    figures.atMost("sound_end_to_end", percentile(wayMs, 0.95), "ms_p95", 250);
    Figures::spread("cue_after_heard", spreadOf(skewMs), skewMs.size());
    for (double& skew : skewMs)
        skew = std::abs(skew);
    figures.atMost("cue_skew", percentile(skewMs, 0.99), "ms_p99", 40);
}

/// A minute of the leader's voice on the loudspeaker and of a person's in the microphone, over and over.
double chainSeconds(const std::vector<std::vector<std::uint8_t>>& packets, const std::vector<float>& person)
{
    VoicePlayer player;
    CleanEar ear;
    TwoCopies inTheRoom; // what listens beside the ear in class
    TwoCopies onThisComputer;
    std::vector<float> far(kSoundFrame);
    std::vector<float> echo(4800 + kSoundFrame);
    std::vector<float> microphone(kSoundFrame);
    std::uint64_t count = 0;
    std::size_t voiced = 0;
    for (std::size_t i = 0; i < packets.size(); ++i, count += kSoundFrame) {
        player.arrive({1, count}, packets[i], Instant{Millis{20 * static_cast<long>(i)}});
        player.render(far);
        std::copy(far.begin(), far.end(), echo.begin() + 4800); // 100 ms later, 12 dB down
        for (std::size_t s = 0; s < kSoundFrame; ++s)
            microphone[s] = person[(count + s) % person.size()] + 0.25F * echo[s];
        std::copy(echo.begin() + kSoundFrame, echo.end(), echo.begin());
        inTheRoom.push(far, microphone);
        onThisComputer.push(far, far);
        ear.push(microphone, far, [&](const VoiceFrame& frame) { voiced += frame.voiced ? 1 : 0; });
    }
    if (voiced == 0)
        std::printf("# nothing voiced\n");
    return static_cast<double>(packets.size()) / 50;
}

void onABadLine(Figures& figures)
{
    QTemporaryDir folder;
    const QString wav = folder.filePath("speech.wav");
    if (!writeWav(wav, speech(kSeconds, -26)) || !aMinuteOnABadLine(wav, figures))
        figures.atLeast("bad_line_minutes", 0, "minutes", 1);
}

void chain(Figures& figures)
{
    const std::vector<float> leader = speech(60, -26);
    const std::vector<float> person = speech(20, -36);
    std::vector<std::vector<std::uint8_t>> packets;
    VoiceSender sender(1);
    sender.push(leader, [&](const wire::SoundHead&, std::span<const std::uint8_t> payload) {
        packets.emplace_back(payload.begin(), payload.end());
    });
    std::vector<double> factors;
    for (int run = 0; run < 5; ++run) {
        const auto start = std::chrono::steady_clock::now();
        const double sound = chainSeconds(packets, person);
        factors.push_back(sound / std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
    }
    Figures::spread("participant_chain", spreadOf(factors), factors.size());
    figures.atLeast("participant_chain_realtime_factor", spreadOf(factors).median, "x", 50);
}

} // namespace

int main(int argc, char** argv)
{
    qputenv("QT_QPA_PLATFORM", "offscreen");
    const QApplication app(argc, argv);
    Figures figures;
    chain(figures);
    onTheServer(figures); // first: Qt looks for a sound server once
    onABadLine(figures);
    return figures.exitCode();
}
