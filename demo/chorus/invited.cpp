#include "demo/chorus/invited.h"

#include "demo/chorus/home_sound.h"
#include "demo/chorus/seeded.h"

namespace vh::chorus
{

namespace
{

constexpr Millis kTalk{6'000};

/// What this person has to say, without the quiet before it.
Samples fewSentences(Character character, std::uint64_t seed)
{
    const HomeSound home(character, seed);
    TurnToSay say;
    say.moment.section = SectionKind::openTalk;
    say.moment.length = kTalk;
    say.line = lineFor(SectionKind::openTalk, Step{}, kTalk, seed);
    say.seed = seed;
    std::vector<float> samples = home.turn(say);
    samples.erase(samples.begin(), samples.begin() + HomeSound::kLeadIn.count() * (voice::kRateHz / 1000));
    return std::make_shared<const std::vector<float>>(std::move(samples));
}

} // namespace

Invited::Invited(Line& line, std::shared_ptr<Setting> setting, Character character, std::uint64_t seed)
    : m_line(line), m_setting(std::move(setting)), m_character(character), m_seed(seed)
{
}

void Invited::asked(const wire::InvitedToSpeak& question)
{
    if (m_asked == question.on)
        return;
    m_asked = question.on;
    if (!m_asked)
        return;
    ++m_times;
    if (likesToBeHeard(m_character) && m_setting->workers)
        return think();
    m_asked = false;
    m_line.ask(wire::SpeakAnswer{{}, false, 0});
}

/// The sound is made first: whoever has said yes begins at once.
void Invited::think()
{
    const auto job = [self = weak_from_this(), &loop = m_setting->loop, character = m_character,
                      seed = mixed({m_seed, m_times}), times = m_times] {
        loop.post([self, times, samples = fewSentences(character, seed)] {
            const auto person = self.lock();
            if (person && person->m_asked && person->m_times == times)
                person->agree(samples);
        });
    };
    if (!m_setting->workers->submit(job))
        m_line.ask(wire::SpeakAnswer{{}, false, 0});
}

void Invited::agree(Samples samples)
{
    m_asked = false;
    m_toSay = std::move(samples);
    m_stream = static_cast<std::uint32_t>(mixed({m_seed, m_times, 0x73747265616D}));
    m_line.ask(wire::SpeakAnswer{{}, true, m_stream});
}

void Invited::told(const wire::Speaking& speaking)
{
    if (!speaking.on)
        return stop();
    if (!speaking.you || m_voice || speaking.stream != m_stream || !m_toSay)
        return;
    m_voice.emplace(m_stream, m_setting->loop.tick());
    m_voice->say(m_toSay);
    m_ending = false;
    ++m_setting->totals.timesHeardByAll;
}

void Invited::lineIsNew(const wire::Welcome& welcome)
{
    stop();
    m_asked = false;
    if (welcome.invited)
        asked(*welcome.invited);
}

void Invited::stop()
{
    m_voice.reset();
    m_toSay.reset();
}

void Invited::beat()
{
    if (!m_voice || m_ending)
        return;
    m_voice->beat(m_setting->loop.tick(), [this](const wire::SoundHead& head, std::span<const std::uint8_t> payload) {
        m_line.sayBinary(wire::encodeSound(head, payload));
        ++m_setting->totals.soundSent;
    });
    if (!m_voice->isSpeaking()) {
        m_ending = true;
        m_line.ask(wire::EndSpeaking{});
    }
}

} // namespace vh::chorus
