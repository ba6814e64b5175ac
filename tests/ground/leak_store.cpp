#include "tests/ground/leak_store.h"

#include "common/echo/real_fft.h"
#include "common/signal/biquad.h"
#include "common/signal/level.h"
#include "common/voice/room.h"

#include <algorithm>
#include <cmath>

namespace vh::ground
{

namespace
{

constexpr double kSaidSeconds = 3.2;
constexpr std::array kLeaderKinds{Kind::modal, Kind::espeak, Kind::modal, Kind::espeak, Kind::breathy};

/// In the room; the level is that of the speech frames of the clean voice as the microphone has it, its tail included.
Said inThatRoom(const Said& said, const Samples& response)
{
    Said out;
    out.samples = convolved(said.samples, response);
    const std::vector<bool> speech = speechFrames(out.samples);
    const std::vector<double> energy = framesA(out.samples, kVoiceRateHz);
    LevelAccumulator level;
    for (std::size_t i = 0; i < std::min(speech.size(), energy.size()); ++i) {
        if (speech[i])
            level.add(energy[i]);
    }
    const double db = level.leqDb(); // brought to 0 dB: how loud a person is at the microphone is for the scene to say
    const auto gain = static_cast<float>(std::pow(10.0, -db / 20));
    for (float& sample : out.samples)
        sample *= gain;
    out.levelDbfsA = 0;
    return out;
}

Samples heldVowel(double pitchHz, double hnrDb, bool woman, double seconds, std::uint64_t seed)
{
    voice::Utterance utterance;
    utterance.text = "ah";
    utterance.stretches = {{0, 2}};
    utterance.melody = voice::Melody::level;
    utterance.seconds = seconds;
    voice::VoiceTraits traits;
    traits.tract = woman ? voice::Tract::woman : voice::Tract::man;
    traits.pitchHz = pitchHz;
    traits.hnrDb = hnrDb;
    traits.wanderPercent = 0.2;
    Samples samples = atVoiceRate(voice::render(utterance, traits, seed).samples, voice::kRateHz);
    return atActiveLevelA(std::move(samples), 0, kVoiceRateHz);
}

} // namespace

Samples convolved(std::span<const float> sound, std::span<const float> response)
{
    std::size_t size = 1024;
    while (size < sound.size() + response.size())
        size *= 2;
    RealFft fft(size);
    Samples work(size);
    Bins a(fft.bins());
    Bins b(fft.bins());
    std::copy(sound.begin(), sound.end(), work.begin());
    fft.forward(work, a);
    std::fill(work.begin(), work.end(), 0.0F);
    std::copy(response.begin(), response.end(), work.begin());
    fft.forward(work, b);
    for (std::size_t k = 0; k < fft.bins(); ++k) {
        const float re = a.re[k] * b.re[k] - a.im[k] * b.im[k];
        a.im[k] = a.re[k] * b.im[k] + a.im[k] * b.re[k];
        a.re[k] = re;
    }
    fft.back(a, work);
    work.resize(sound.size() + response.size());
    return work;
}

Samples throughSmallLoudspeaker(std::span<const float> dry, double headroomDb)
{
    Biquad low(butterworthHighPass(300, kVoiceRateHz));
    Biquad high(butterworthLowPass(7000, kVoiceRateHz));
    const double bend = std::pow(10.0, headroomDb / 20);
    Samples out(dry.size());
    std::transform(dry.begin(), dry.end(), out.begin(), [&](float sample) {
        return static_cast<float>(high.push(bend * std::tanh(low.push(sample) / bend)));
    });
    return out;
}

LeakStore::LeakStore(std::size_t rooms, std::size_t sayingsPerRoom, std::size_t lines, std::uint64_t seed)
    : m_perRoom(sayingsPerRoom), m_seed(seed), m_random(seed)
{
    makeRooms(rooms);
    for (std::size_t i = 0; i < lines; ++i) {
        const Kind kind = kLeaderKinds[i % kLeaderKinds.size()];
        for (Said& said : sayings(kind, 1, kLeakLineSeconds, seed + 1000 + i))
            m_lines.push_back({std::move(said.samples), {}, 0});
    }
    std::vector<LeakLine*> all;
    for (LeakLine& line : m_lines)
        all.push_back(&line);
    makeWet(all);
    makeUnisons(6);
    for (Said& said : sayings(Kind::espeak, 16, 6, seed + 7))
        m_talk.push_back(std::move(said.samples));
}

void LeakStore::makeRooms(std::size_t rooms)
{
    for (std::size_t i = 0; i < rooms; ++i) {
        LeakRoom made;
        made.rt60Seconds =
            0.2 + 0.6 * static_cast<double>(i) / static_cast<double>(std::max<std::size_t>(rooms - 1, 1));
        // A laptop's own, or one that stands beside it.
        made.loudspeakerMetres = m_random.chance(0.6) ? m_random.between(0.12, 0.3) : m_random.between(0.4, 1.0);
        made.headroomDb = m_random.between(6, 18);
        voice::Room room;
        room.sizeMetres = {m_random.between(3, 6), m_random.between(2.6, 5), m_random.between(2.3, 2.8)};
        room.rt60Seconds = made.rt60Seconds;
        room.distanceMetres = made.loudspeakerMetres;
        made.fromLoudspeaker = atVoiceRate(voice::impulseResponse(room), voice::kRateHz);
        room.distanceMetres = m_random.between(0.4, 0.8);
        made.fromMouth = atVoiceRate(voice::impulseResponse(room), voice::kRateHz);
        m_rooms.push_back(std::move(made));
    }
}

void LeakStore::makeWet(std::vector<LeakLine*> lines)
{
    for (const LeakRoom& room : m_rooms) {
        LevelAccumulator level;
        for (LeakLine* line : lines) {
            line->wet.push_back(convolved(throughSmallLoudspeaker(line->dry, room.headroomDb), room.fromLoudspeaker));
            level.add(meanSquareOfDb(activeLevelA(line->wet.back(), kVoiceRateHz)));
        }
        const auto gain = static_cast<float>(std::pow(10.0, -level.leqDb() / 20));
        for (LeakLine* line : lines)
            for (float& sample : line->wet.back())
                sample *= gain;
    }
}

void LeakStore::makeUnisons(std::size_t count)
{
    for (std::size_t i = 0; i < count; ++i) {
        const double pitchHz = m_random.between(110, 220);
        const bool woman = m_random.chance(0.5);
        Unison unison;
        unison.leader.dry = heldVowel(pitchHz, 18, woman, kLeakLineSeconds, m_random.next());
        unison.leader.pitchHz = pitchHz;
        Said person;
        person.samples =
            heldVowel(pitchHz, m_random.between(8, 18), m_random.chance(0.7) == woman, kSaidSeconds, m_random.next());
        for (const LeakRoom& room : m_rooms)
            unison.person.push_back(inThatRoom(person, room.fromMouth));
        m_unisons.push_back(std::move(unison));
    }
    std::vector<LeakLine*> all;
    for (Unison& unison : m_unisons)
        all.push_back(&unison.leader);
    makeWet(all);
}

const std::vector<Said>& LeakStore::said(Kind kind, std::size_t room)
{
    const std::scoped_lock lock(m_making);
    std::vector<Said>& store = m_said[{kind, room}];
    if (store.empty()) {
        for (const Said& said : sayings(kind, m_perRoom, kSaidSeconds, m_seed + 100 * room))
            store.push_back(inThatRoom(said, m_rooms[room].fromMouth));
    }
    return store;
}

} // namespace vh::ground
