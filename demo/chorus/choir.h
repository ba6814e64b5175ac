#pragma once
// Many homes on one loop, with a helper and a leader of their own if wanted: the whole chorus, for the program, for
// tests and for benches. All is decided by the clock that is handed in; the loop only wakes it. Homes come at most
// `atDoorAtOnce` at a time, because a door has room for so many. Thread: the loop's for everything.
#include "demo/chorus/desk_lines.h"
#include "demo/chorus/home.h"

namespace vh::chorus
{

struct ChoirOptions {
    net::ClientOptions relay; ///< address and TLS; path and sizes are set here
    std::string code;         ///< of the group, normalised
    std::uint32_t homes = 27;
    std::uint64_t seed = 1;
    Voices voices = Voices::always;
    unsigned threads = 2;  ///< that speak and measure; none where nobody speaks
    Millis lateBy{20'000}; ///< how much later the late comers come
    std::size_t atDoorAtOnce = 100;
    std::chrono::nanoseconds beat = std::chrono::milliseconds(20); ///< between looks at the clock, in real time
};

class Choir
{
public:
    Choir(net::Loop& loop, const Clock& clock, const ChoirOptions& options);
    ~Choir();
    Choir(const Choir&) = delete;
    Choir& operator=(const Choir&) = delete;

    /// These come at once.
    HelperLine& addHelper(wire::Token link, DeskDuties duties);
    LeaderLine& addLeader(wire::Token link, DeskDuties duties);
    /// The homes begin to come.
    void start();
    /// Late comers need not wait any longer.
    void letLateComersCome() { m_lateFrom = Instant::min(); }
    /// Everybody says goodbye.
    void stop();

    /// Called once, when all homes but the late comers are in, their mic checks are done, and all they asked for has
    /// been answered.
    std::function<void()> onReady;

    [[nodiscard]] bool everybodyIn() const;
    /// All mic checks are done.
    [[nodiscard]] bool everybodyChecked() const;
    [[nodiscard]] const Totals& totals() const { return m_setting->totals; }
    /// Processor time that speaking and measuring have taken, all threads together.
    [[nodiscard]] double voiceSeconds() const { return m_workers ? m_workers->busySeconds() : 0; }
    [[nodiscard]] const std::vector<std::shared_ptr<Home>>& homes() const { return m_homes; }
    /// For further lines beside the choir's own.
    [[nodiscard]] const std::shared_ptr<Setting>& setting() const { return m_setting; }
    [[nodiscard]] LeaderLine* leader() const { return m_leader.get(); }

private:
    void beat();

    ChoirOptions m_options;
    std::shared_ptr<Workers> m_workers;
    std::shared_ptr<Setting> m_setting;
    std::vector<std::shared_ptr<Home>> m_homes;
    std::shared_ptr<HelperLine> m_helper;
    std::shared_ptr<LeaderLine> m_leader;
    Instant m_lateFrom = Instant::max();
    bool m_singing = false;
    bool m_ready = false;
    net::Loop::Timer m_beat;
};

} // namespace vh::chorus
