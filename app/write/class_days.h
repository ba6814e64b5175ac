#pragma once
// A group's days: which classes are planned, and which were held and how long they really took; and what of a class
// was used in the thirty days before. Value without files (days_file.h) and without a clock: who asks says which day
// it is. Any one thread. No person is in it.
#include "common/base/clock.h"

#include <QDate>
#include <QString>

#include <functional>
#include <set>
#include <string>
#include <vector>

namespace vh::write
{

inline constexpr int kLately = 30; ///< days

/// A class as the days know it. `key`: ClassLibrary::keyOf().
struct DayClass {
    QDate day;
    QString key;
    QString title;
    QString theme;
    friend bool operator==(const DayClass&, const DayClass&) = default;
};

struct HeldClass {
    DayClass what;
    Millis planned{0};               ///< by its plan
    Millis took{0};                  ///< from its start to its end
    std::set<std::string> sentences; ///< sentencesSaid(); kept for twice kLately
    friend bool operator==(const HeldClass&, const HeldClass&) = default;
};

/// Something of a class that the group has met before, or will have by then.
struct UsedBefore {
    enum class What { theClass, theme, sentence };
    What what = What::theme;
    QString words; ///< the theme or the sentence
    QDate day;
    QString title;     ///< of the class it was in
    bool held = false; ///< else planned
    friend bool operator==(const UsedBefore&, const UsedBefore&) = default;
};

class ClassDays
{
public:
    [[nodiscard]] const std::vector<DayClass>& planned() const { return m_planned; } ///< by day; of one day, as planned
    [[nodiscard]] const std::vector<HeldClass>& held() const { return m_held; }      ///< likewise, as held

    /// False: this class is planned on this day already.
    bool plan(const DayClass& what);
    /// Indices into planned(). Moved to a day that has it already, it is there once.
    void move(std::size_t index, QDate to);
    void takeOff(std::size_t index);
    /// What was planned that day under this key is done by it.
    void keep(HeldClass held);

    /// The last day it was held on, and the first from `today` on that it is planned for; invalid: none.
    [[nodiscard]] QDate lastHeld(const QString& key) const;
    [[nodiscard]] QDate nextPlanned(const QString& key, QDate today) const;

    /// What of the class was used in the kLately days before `day`, or is planned to be: the class itself, else its
    /// theme (letters and accents as folded() takes them) and its sentences; each once, where it was last. Planned
    /// classes: `sentencesOf` says what is in them.
    using SentencesOf = std::function<std::set<std::string>(const QString& key)>;
    [[nodiscard]] std::vector<UsedBefore> usedBefore(const DayClass& what, const std::set<std::string>& sentences,
                                                     const SentencesOf& sentencesOf) const;
    /// All sentences of classes held in the kLately days before and on `today`, but for this one: for its review.
    [[nodiscard]] std::set<std::string> saidLately(QDate today, const QString& butFor) const;

    friend bool operator==(const ClassDays&, const ClassDays&) = default;

private:
    friend class DaysFile;
    std::vector<DayClass> m_planned;
    std::vector<HeldClass> m_held;
};

} // namespace vh::write
