// Somebody who types without a pause, to be killed: puts one numbered, time-stamped text after the other into the first
// step of a class, and says each to the standard output once it is typed.
//   typing_process CLASS.yaml
#include "app/write/class_document.h"
#include "app/write/draft_keeper.h"
#include "tests/app/write/write_classes.h"

#include <QCoreApplication>
#include <QDateTime>

#include <cstdio>

int main(int argc, char** argv)
{
    using namespace vh::write;
    QCoreApplication app(argc, argv);
    if (argc != 2)
        return 2;
    DraftKeeper keeper({}); // as the program has it
    if (keeper.take(argv[1]) != DraftKeeper::Place::mine)
        return 3;
    ClassDocument document({});
    const auto draft = keeper.unfinished();
    document.begin(draft ? draft->draft.script : vh::testing::pondClass(), {0, 0});
    long long typed = document.text().section(u' ', 0, 0).toLongLong();
    keeper.setSource([&] { return Draft{document.script(), document.spot(), {}, 0}; });
    QObject::connect(&document, &ClassDocument::changed, &keeper, &DraftKeeper::touch);
    QTimer timer;
    QObject::connect(&timer, &QTimer::timeout, [&] {
        const long long now = QDateTime::currentMSecsSinceEpoch();
        const QString text = QStringLiteral("%1 %2").arg(++typed).arg(now);
        document.setText(text, static_cast<int>(text.size()));
        std::printf("%lld %lld\n", typed, now);
        std::fflush(stdout);
    });
    timer.start(5);
    return QCoreApplication::exec();
}
