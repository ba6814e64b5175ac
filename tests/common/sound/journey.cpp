#include "tests/common/sound/journey.h"

#include "common/voice/voice.h"

#include <deque>

namespace vh::test
{

namespace
{
struct OnTheWay {
    double atMs;
    wire::SoundHead head;
    std::vector<std::uint8_t> payload;
};
} // namespace

std::vector<double> Journey::delays(double fromMs) const
{
    std::vector<double> values;
    for (const Moment& moment : moments) {
        if (moment.ms >= fromMs)
            values.push_back(moment.delayMs);
    }
    return values;
}

double quantile(std::vector<double> values, double share)
{
    if (values.empty())
        return 0;
    std::ranges::sort(values);
    const auto place = static_cast<std::size_t>(std::ceil(share * static_cast<double>(values.size())));
    return values[std::clamp<std::size_t>(place, 1, values.size()) - 1];
}

Journey travel(const JourneyPlan& plan)
{
    Journey journey;
    VoiceSender sender(7, plan.coding);
    VoicePlayer player;
    stage::LineModel line(plan.line, plan.seed);
    std::deque<OnTheWay> way;
    std::vector<float> captured(plan.captureChunk);
    std::vector<float> played(plan.playbackChunk);
    const double leaderPerMs = 48 * (1 + plan.leaderPpm * 1e-6);
    const double homePerMs = 48 * (1 + plan.homePpm * 1e-6);
    const double lookahead = VoiceEncoder().lookahead();
    std::uint64_t samplesIn = 0;
    std::uint64_t samplesOut = 0;

    while (static_cast<double>(samplesOut) < plan.seconds * 1000 * homePerMs) {
        const double nowMs = static_cast<double>(samplesOut) / homePerMs;
        for (;;) {
            const double fullMs = static_cast<double>(samplesIn + captured.size()) / leaderPerMs;
            if (fullMs > nowMs)
                break;
            std::ranges::fill(captured, 0.0F);
            if (plan.source)
                plan.source(samplesIn, captured);
            if (plan.leader)
                plan.leader(fullMs, sender);
            sender.push(captured, [&](const wire::SoundHead& head, std::span<const std::uint8_t> payload) {
                ++journey.packets;
                journey.bytes += payload.size();
                if (plan.relay && !plan.relay(head))
                    return;
                if (const auto at = line.arrivalOf(fullMs))
                    way.push_back({*at, head, {payload.begin(), payload.end()}});
            });
            samplesIn += captured.size();
        }
        for (; !way.empty() && way.front().atMs <= nowMs; way.pop_front())
            player.arrive(way.front().head, way.front().payload,
                          Instant{Millis{static_cast<std::int64_t>(way.front().atMs)}});
        const std::uint64_t before = player.heardUpTo().sample;
        player.render(played);
        samplesOut += played.size();
        const std::uint64_t after = player.heardUpTo().sample;
        journey.heardUpTo.push_back(after);
        if (after > before) {
            const double saidMs = (static_cast<double>(after) - lookahead) / leaderPerMs;
            const double heardMs = static_cast<double>(samplesOut) / homePerMs;
            journey.moments.push_back({heardMs, heardMs - saidMs});
        }
        if (plan.keepSound)
            journey.heard.insert(journey.heard.end(), played.begin(), played.end());
    }
    journey.stats = player.stats();
    return journey;
}

AfterStalls afterStalls(const Journey& journey, const JourneyPlan& plan)
{
    AfterStalls after;
    const double every = plan.line.stallEveryMs;
    for (double end = every / 2 + plan.line.stallMs; end + 10'000 < plan.seconds * 1000; end += every) {
        double back = 10'000;
        for (const Journey::Moment& moment : journey.moments) {
            if (moment.ms < end || moment.ms > end + 10'000)
                continue;
            if (moment.delayMs <= 400)
                back = std::min(back, moment.ms - end);
            if (moment.ms > end + 1'000)
                after.behindMs = std::max(after.behindMs, moment.delayMs);
        }
        after.backMs = std::max(after.backMs, back);
        ++after.stalls;
    }
    return after;
}

const std::vector<float>& leaderSpeech()
{
    static const std::vector<float> speech = [] {
        std::vector<float> all;
        const char* const phrases[] = {"Good morning, and welcome.", "Sit up tall, with both feet on the floor.",
                                       "Breathe in, and let it out slowly.", "Now with a strong and easy voice.",
                                       "The kettle is on, and the garden gate is open."};
        std::uint64_t seed = 1;
        for (const char* const phrase : phrases) {
            const auto sound = voice::render({.text = phrase, .stretches = {}, .levelDbfsA = -24, .silentSeconds = 0.9},
                                             {.tract = voice::Tract::woman, .pitchHz = 205}, seed++);
            all.insert(all.end(), sound.samples.begin(), sound.samples.end());
        }
        voice::Random room(99);
        for (float& sample : all)
            sample += static_cast<float>(room.normal() * 3e-4); // a room is never silent
        return all;
    }();
    return speech;
}

std::function<void(std::uint64_t, std::span<float>)> speaking()
{
    return [&speech = leaderSpeech()](std::uint64_t first, std::span<float> into) {
        for (std::size_t i = 0; i < into.size(); ++i)
            into[i] = speech[(first + i) % speech.size()];
    };
}

std::function<void(std::uint64_t, std::span<float>)> tone(double hz, double amplitude)
{
    return [=](std::uint64_t first, std::span<float> into) {
        for (std::size_t i = 0; i < into.size(); ++i) {
            const double turns = hz * static_cast<double>(first + i) / 48'000;
            into[i] = static_cast<float>(amplitude * std::sin(2 * std::numbers::pi * (turns - std::floor(turns))));
        }
    };
}

} // namespace vh::test
