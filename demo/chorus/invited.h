#pragma once
// A person who is asked whether everybody may hear them: whoever likes to be heard agrees, says a few sentences with
// their own voice, as real sound frames, and ends it; the others would rather not. Thread: the loop's.
#include "demo/chorus/characters.h"
#include "demo/chorus/line.h"
#include "demo/chorus/live_voice.h"

namespace vh::chorus
{

class Invited : public std::enable_shared_from_this<Invited>
{
public:
    /// `line` owns this.
    Invited(Line& line, std::shared_ptr<Setting> setting, Character character, std::uint64_t seed);

    void asked(const wire::InvitedToSpeak& question);
    void told(const wire::Speaking& speaking);
    void lineIsNew(const wire::Welcome& welcome);
    /// Says what is due.
    void beat();
    [[nodiscard]] bool isHeard() const { return m_voice.has_value(); }

private:
    void think();
    void agree(Samples samples);
    void stop();

    Line& m_line;
    std::shared_ptr<Setting> m_setting;
    Character m_character;
    std::uint64_t m_seed;
    std::uint32_t m_times = 0; ///< this person was asked
    bool m_asked = false;      ///< and has not answered
    std::uint32_t m_stream = 0;
    Samples m_toSay;
    std::optional<LiveVoice> m_voice; ///< while everybody hears it
    bool m_ending = false;
};

} // namespace vh::chorus
