#pragma once
// The leader's own paper: the whole class with times, turns, notes and what people say, compact, to go on from when the
// network dies. What she says stands at 14 pt, everything else at 11 and more. In the language of its words as the
// handout. Needs a QGuiApplication. Any one thread that may use QPainter. Failure: typeface-missing.
#include "app/handout/handout.h"

#include <QTime>

namespace vh::handout
{

struct PaperScriptOptions {
    Paper paper = Paper::a4;
    QString group;
    QDate date;
    QTime startsAt; ///< when the class is to begin; null: only the time since the start is printed
    QString words;  ///< as in HandoutOptions
};

Result<QByteArray> paperScriptPdf(const ClassScript& script, const PaperScriptOptions& options);

} // namespace vh::handout
