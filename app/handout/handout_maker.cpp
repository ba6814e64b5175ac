#include "app/handout/handout_maker.h"

#include <QCoreApplication>

namespace vh::handout
{

namespace
{

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::handout", source);
}

} // namespace

Result<Papers> makePapers(const ClassScript& script, const QString& pictures, const QString& folder,
                          const PapersOptions& options)
{
    const HandoutOptions& common = options.handout;
    const auto handout = handoutPdf(script, pictures, common);
    if (!handout)
        return tl::unexpected<Error>(handout.error());
    const auto paper =
        paperScriptPdf(script, {common.paper, common.group, common.date, options.startsAt, common.words});
    if (!paper)
        return tl::unexpected<Error>(paper.error());
    const QString title = QString::fromStdString(script.title);
    Papers papers;
    for (const auto& [what, bytes, path] : {std::tuple(tr("handout"), &*handout, &papers.handout),
                                            std::tuple(tr("paper script"), &*paper, &papers.script)}) {
        auto saved = savePaper(folder, paperName(title, common.date, what), *bytes);
        if (!saved)
            return tl::unexpected<Error>(saved.error());
        *path = *saved;
    }
    return papers;
}

} // namespace vh::handout
