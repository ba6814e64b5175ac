#pragma once
// The handout of a class: what its people read, in large print (18 pt and more), as a PDF to be printed on any black
// printer or read on a screen. Text in the order in which the class meets it, vowels to hold with a bar under just
// those letters, pictures with their descriptions, cautions, the week's plan, room to write. Its own words come in the
// class's language where handout_words.h knows it, else in English, saying which language the class is in. Pictures are
// read from `folder`; one that cannot be read is left out, and its description stands alone. Needs a QGuiApplication;
// about 50 ms for a class. Any one thread that may use QPainter. Failure: typeface-missing, handout-too-large (over
// kMostHandoutBytes even with coarse pictures).
#include "common/base/result.h"
#include "common/script/script.h"

#include <QByteArray>
#include <QDate>
#include <QLocale>
#include <QString>

#include <vector>

namespace vh::handout
{

enum class Paper : std::uint8_t { a4, letter };
/// What printers hold there: Letter in the countries that Unicode's CLDR lists for it, A4 everywhere else.
Paper paperOf(const QLocale& locale);

/// A day of the week's plan, as it shall be read.
struct PlannedDay {
    QString day;   ///< "Monday"
    QString title; ///< of that day's class
    bool today = false;
    friend bool operator==(const PlannedDay&, const PlannedDay&) = default;
};

struct HandoutOptions {
    Paper paper = Paper::a4;
    QString group;                ///< the group's name; may be empty
    QDate date;                   ///< of the class; null: not said. Also the date inside the file
    std::vector<PlannedDay> week; ///< in order; empty: no plan is printed
    QString words;                ///< language of the handout's own words (BCP 47); empty: the class's
};

/// Fits what the relay takes (wire::kHandoutBytes).
inline constexpr qsizetype kMostHandoutBytes = 4 * 1024 * 1024;

Result<QByteArray> handoutPdf(const ClassScript& script, const QString& folder, const HandoutOptions& options);

} // namespace vh::handout
