#pragma once
// How a leader's own pace compares with the plan, learned from classes she has led and rehearsed: for each kind of
// section, how long what she shows and what the people do really took. Robust: each class counts once, by the median of
// the last ones, few classes move it less than many, and it stays within kLeastTimes and kMostTimes. It foretells how
// long a class will be; it never changes the turns of a script, so that what is learned stays against the same plan.
// Pure; any thread.
#include "common/script/plan.h"

#include <array>
#include <span>

namespace vh
{

/// Whose time it is: `shown` the listen turns (in a water pause: the pause), `spoken` all others.
enum class PacePart : std::uint8_t { shown, spoken };
inline constexpr std::size_t kPaceParts = 2;
inline constexpr std::size_t kSectionKinds = static_cast<std::size_t>(SectionKind::closing) + 1;
[[nodiscard]] constexpr PacePart partOf(TurnKind turn)
{
    return turn == TurnKind::listen ? PacePart::shown : PacePart::spoken;
}

/// What one class shows of it: planned and real time of the steps that were gone through from beginning to end.
struct PaceSample {
    struct Time {
        Millis planned{0};
        Millis actual{0};
        friend bool operator==(const Time&, const Time&) = default;
    };
    std::array<std::array<Time, kPaceParts>, kSectionKinds> times{};

    [[nodiscard]] const Time& of(SectionKind kind, PacePart part) const;
    void add(SectionKind kind, PacePart part, Millis planned, Millis actual);
    void add(const PaceSample& other);
    /// Of all kinds together.
    [[nodiscard]] Time sum() const;
    /// Nothing was gone through at a pace that says anything.
    [[nodiscard]] bool empty() const { return sum().planned == Millis{0}; }
    friend bool operator==(const PaceSample&, const PaceSample&) = default;
};

class OwnPace
{
public:
    static constexpr double kLeastTimes = 2.0 / 3;
    static constexpr double kMostTimes = 1.5;
    static constexpr std::size_t kMostClasses = 10; ///< the last of them count
    static constexpr Millis kLeastPlanned{10'000};  ///< of a kind and part in one class, to say anything about it

    /// Everything as planned.
    OwnPace() = default;
    /// Oldest first.
    explicit OwnPace(std::span<const PaceSample> classes);

    /// How many times as long as planned; 1 where nothing is known.
    [[nodiscard]] double times(SectionKind kind, PacePart part) const;
    [[nodiscard]] Millis at(SectionKind kind, TurnKind turn, Millis planned) const;
    [[nodiscard]] bool isAsPlanned() const { return *this == OwnPace(); }
    friend bool operator==(const OwnPace&, const OwnPace&) = default;

private:
    /// Over 1, so that {} is as planned.
    std::array<std::array<double, kPaceParts>, kSectionKinds> m_longer{};
};

/// The plan as this leader will go through it.
TimingPlan planOf(const ClassScript& script, const OwnPace& pace);

/// What is worth knowing of it, in sentences, what changes a class most first: "You take about a fifth longer to show
/// sentences than the plan says." Empty where everything is about as planned.
std::vector<std::string> wordsOf(const OwnPace& pace);

} // namespace vh
