// Not a test: writes both papers of classes into a folder, on both kinds of paper, to be looked at.
// show_handout FOLDER [FILE.yaml...]
#include "app/handout/paper_script.h"
#include "common/script/reader.h"

#include <QFile>
#include <QFileInfo>
#include <QGuiApplication>
#include <QTextStream>

using namespace vh;

namespace
{

bool save(const QString& path, const Result<QByteArray>& pdf)
{
    QFile file(path);
    return pdf && file.open(QIODevice::WriteOnly) && file.write(*pdf) == pdf->size();
}

} // namespace

int main(int count, char** words)
{
    QGuiApplication app(count, words);
    const QString folder = app.arguments().value(1);
    handout::HandoutOptions options;
    options.group = "Lakeside voices";
    options.date = QDate(2025, 5, 14);
    options.week = {{"Monday", "A morning at the lakeside plots", false},
                    {"Tuesday", "Bread before dawn", false},
                    {"Wednesday", "The harbour in the mist", true},
                    {"Thursday", "A windy day on Kite Hill", false},
                    {"Friday", "The mending table", false}};
    for (const QString& path : app.arguments().mid(2)) {
        QFile file(path);
        if (!file.open(QIODevice::ReadOnly))
            return 1;
        const auto script = readClassScript(file.readAll().toStdString(), path.toStdString());
        if (!script)
            return 1;
        for (const auto paper : {handout::Paper::a4, handout::Paper::letter}) {
            options.paper = paper;
            const QString name = QFileInfo(path).baseName() + (paper == handout::Paper::a4 ? "-a4" : "-letter");
            const QString base = folder + '/' + name;
            if (!save(base + ".pdf", handout::handoutPdf(*script, QFileInfo(path).path(), options)))
                return 1;
            if (!save(base + "-script.pdf",
                      handout::paperScriptPdf(*script, {paper, options.group, options.date, QTime(10, 0), {}})))
                return 1;
        }
    }
    return 0;
}
