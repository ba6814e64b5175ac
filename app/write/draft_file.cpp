#include "app/write/draft_file.h"

#include "common/script/limits.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

namespace vh::write
{

namespace
{

constexpr int kVersion = 1;

QString text(std::string_view words)
{
    return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}

QJsonObject objectOf(const Step& step)
{
    QJsonArray marks;
    for (const Stretch& mark : step.stretches)
        marks.append(QJsonArray{static_cast<qint64>(mark.begin), static_cast<qint64>(mark.end)});
    QJsonArray rounds;
    for (const Round& round : step.rounds) {
        QJsonArray turns;
        for (const Turn& turn : round.turns)
            turns.append(QJsonArray{text(nameOf(turn.kind)), static_cast<qint64>(turn.planned.count())});
        rounds.append(QJsonObject{{"moreVoice", round.moreVoice}, {"turns", turns}});
    }
    QJsonObject object{{"text", text(step.text)}, {"marks", marks}, {"note", text(step.note)}, {"rounds", rounds}};
    if (step.picture)
        object["picture"] =
            QJsonObject{{"file", text(step.picture->file)}, {"description", text(step.picture->description)}};
    if (step.optionalDearness)
        object["dearness"] = *step.optionalDearness;
    return object;
}

Result<Step> stepOf(const QJsonObject& object)
{
    Step step;
    step.text = object["text"].toString().toStdString();
    step.note = object["note"].toString().toStdString();
    for (const QJsonValue& mark : object["marks"].toArray()) {
        const auto begin = mark.toArray()[0].toInteger(-1);
        const auto end = mark.toArray()[1].toInteger(-1);
        if (begin < 0 || end < begin || end > static_cast<qint64>(step.text.size()))
            return fail("bad-draft", "a mark outside its text");
        step.stretches.push_back({static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)});
    }
    for (const QJsonValue& each : object["rounds"].toArray()) {
        Round round;
        round.moreVoice = each["moreVoice"].toBool();
        for (const QJsonValue& turn : each["turns"].toArray()) {
            const auto kind = turnKindOf(turn.toArray()[0].toString().toStdString());
            if (!kind)
                return fail("bad-draft", "a turn of no kind");
            round.turns.push_back({*kind, Millis{turn.toArray()[1].toInteger()}});
        }
        step.rounds.push_back(std::move(round));
    }
    if (object["picture"].isObject())
        step.picture = Picture{object["picture"]["file"].toString().toStdString(),
                               object["picture"]["description"].toString().toStdString()};
    if (object["dearness"].isDouble())
        step.optionalDearness = object["dearness"].toInt();
    return step;
}

} // namespace

QByteArray bytesOf(const Draft& draft)
{
    QJsonArray sections;
    for (const Section& section : draft.script.sections) {
        QJsonArray steps;
        for (const Step& step : section.steps)
            steps.append(objectOf(step));
        sections.append(
            QJsonObject{{"kind", text(nameOf(section.kind))}, {"title", text(section.title)}, {"steps", steps}});
    }
    const QJsonObject script{{"title", text(draft.script.title)},
                             {"theme", text(draft.script.theme)},
                             {"language", text(draft.script.language)},
                             {"minutes", draft.script.plannedMinutes},
                             {"sections", sections}};
    return QJsonDocument(QJsonObject{{"voicehallDraft", kVersion},
                                     {"written", static_cast<qint64>(draft.written)},
                                     {"basedOn", QString::fromLatin1(draft.basedOn)},
                                     {"spot", QJsonArray{draft.spot.section, draft.spot.step}},
                                     {"class", script}})
        .toJson(QJsonDocument::Compact);
}

Result<Draft> readDraft(const QByteArray& bytes)
{
    QJsonParseError error;
    const QJsonObject all = QJsonDocument::fromJson(bytes, &error).object();
    if (error.error != QJsonParseError::NoError || all["voicehallDraft"].toInt() != kVersion ||
        !all["class"].isObject())
        return fail("bad-draft", "This is no draft that can be read here.");
    const QJsonObject script = all["class"].toObject();
    Draft draft;
    draft.written = all["written"].toInteger();
    draft.basedOn = all["basedOn"].toString().toLatin1();
    draft.spot = {all["spot"].toArray()[0].toInt(-1), all["spot"].toArray()[1].toInt(-1)};
    draft.script.title = script["title"].toString().toStdString();
    draft.script.theme = script["theme"].toString().toStdString();
    draft.script.language = script["language"].toString().toStdString();
    draft.script.plannedMinutes = script["minutes"].toInt();
    for (const QJsonValue& each : script["sections"].toArray()) {
        const auto kind = sectionKindOf(each["kind"].toString().toStdString());
        if (!kind)
            return fail("bad-draft", "a part of no kind");
        Section section{*kind, each["title"].toString().toStdString(), {}};
        for (const QJsonValue& step : each["steps"].toArray()) {
            auto read = stepOf(step.toObject());
            if (!read)
                return tl::unexpected<Error>(read.error());
            section.steps.push_back(std::move(*read));
        }
        draft.script.sections.push_back(std::move(section));
    }
    return draft;
}

} // namespace vh::write
