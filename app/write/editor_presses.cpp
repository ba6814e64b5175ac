// EditorControl: what is typed and pressed.
#include "app/write/editor_control.h"
#include "app/write/picture_intake.h"

#include <QFileDialog>
#include <QFileInfo>

#include <algorithm>

namespace vh::write
{

void EditorControl::connectTyping()
{
    connect(m_page, &EditorPage::titleTyped, &m_document, &ClassDocument::setTitle);
    connect(m_page, &EditorPage::themeTyped, &m_document, &ClassDocument::setTheme);
    connect(m_page, &EditorPage::languageTyped, &m_document, &ClassDocument::setLanguage);
    connect(m_page, &EditorPage::minutesTyped, &m_document, &ClassDocument::setMinutes);
    connect(m_page, &EditorPage::partTitleTyped, &m_document, &ClassDocument::setSectionTitle);
    connect(m_page, &EditorPage::partKindChosen, &m_document, &ClassDocument::setSectionKind);
    connect(m_page, &EditorPage::textTyped, &m_document, &ClassDocument::setText);
    connect(m_page, &EditorPage::noteTyped, &m_document, &ClassDocument::setNote);
    connect(m_page, &EditorPage::descriptionTyped, &m_document, &ClassDocument::setDescription);
    connect(m_page, &EditorPage::markRequested, &m_document, &ClassDocument::toggleMark);
    connect(m_page, &EditorPage::dearnessChosen, this,
            [this](int dearness) { m_document.setDearness(dearness == 0 ? std::nullopt : std::optional(dearness)); });
}

void EditorControl::connectPresses()
{
    connect(m_page, &EditorPage::pressed, this, &EditorControl::pressed);
    connect(m_page, &EditorPage::answered, this, &EditorControl::answered);
    connect(m_page, &EditorPage::textDone, this, &EditorControl::goOn);
    connect(m_page, &EditorPage::linesPasted, this, &EditorControl::takeTexts);
    connect(m_page, &EditorPage::remarkRequested, this, &EditorControl::goToRemark);
    connect(m_page, &EditorPage::spotRequested, this, [this](const Spot& spot) { m_document.select(spot); });
    connect(m_page, &EditorPage::roundEditRequested, this, [this](RoundEdit edit) {
        if (m_document.step())
            editRounds(editedRounds(*m_document.step(), m_page->turn(), edit, m_document.tidy().language),
                       tr("the turns"));
    });
    connect(m_page, &EditorPage::secondsRequested, this, [this](double seconds) {
        if (m_document.step())
            editRounds(withSeconds(*m_document.step(), m_page->turn(), seconds), tr("the seconds"));
    });
}

void EditorControl::pressed(Press press)
{
    QUndoStack& undo = m_document.undoStack();
    switch (press) {
    case Press::save:
        return save();
    case Press::undo: {
        const QString what = undo.undoText();
        undo.undo();
        return say(tr("Taken back: %1.").arg(what));
    }
    case Press::redo: {
        const QString what = undo.redoText();
        undo.redo();
        return say(tr("Done again: %1.").arg(what));
    }
    case Press::rehearse:
    case Press::handout:
        if (!m_document.isClass())
            return save(); // says what is missing
        m_keeper.keepNow();
        return press == Press::rehearse ? emit rehearseRequested(m_document.tidy(), folder())
                                        : emit handoutRequested(m_document.tidy(), folder());
    case Press::leave:
        return leave();
    case Press::newStep:
        return restructure(Structure::addStep);
    case Press::newPart:
        return restructure(Structure::addSection);
    case Press::copy:
        return restructure(Structure::copy);
    case Press::up:
        return restructure(Structure::moveUp);
    case Press::down:
        return restructure(Structure::moveDown);
    case Press::remove:
        return restructure(Structure::remove);
    case Press::split:
        return restructure(Structure::split);
    case Press::toWrite:
        return goTo(m_document.nextToWrite());
    case Press::before:
        return goTo(stepBefore(m_document.script(), m_document.spot()));
    case Press::after:
        return goTo(stepAfter(m_document.script(), m_document.spot()));
    case Press::markAll: {
        const int marked = m_document.markAll();
        return say(marked == 0 ? tr("There was no text without a mark.")
                               : tr("Vowels marked in %1 texts.").arg(marked));
    }
    case Press::nextRemark:
        return goToRemark(m_document.remarks().empty()
                              ? -1
                              : (m_page->chosenRemark() + 1) % static_cast<int>(m_document.remarks().size()));
    case Press::mend:
        return mend();
    case Press::mendAll: {
        const int gone = m_document.mendAll();
        return say(gone == 1 ? tr("One thing is mended.") : tr("%1 things are mended.").arg(gone));
    }
    case Press::whoseTurn:
        m_sheetTurn = m_sheetTurn == TurnKind::yours ? TurnKind::listen : TurnKind::yours;
        return show();
    case Press::largest:
        m_largest = !m_largest;
        return show();
    case Press::choosePicture:
        return choosePicture();
    case Press::dropPicture:
        return m_document.setPicture(std::nullopt);
    case Press::mark:
    case Press::words:
    case Press::turns:
    case Press::picture:
        return; // the page's own
    }
}

void EditorControl::restructure(Structure what)
{
    if (!m_document.restructure(what, m_page->caret()))
        return say(what == Structure::split ? tr("Put the caret where the text is to be parted.")
                                            : tr("It is at the end already."));
    if (what == Structure::addStep || what == Structure::addSection)
        m_page->toFields();
}

void EditorControl::goTo(const std::optional<Spot>& spot)
{
    if (!spot)
        return;
    m_document.select(*spot);
    m_page->toFields();
}

/// Enter in a text: what is still to write comes first, else the step after this one.
void EditorControl::goOn()
{
    const auto next = m_document.nextToWrite();
    if (next && !(*next == m_document.spot()))
        return goTo(next);
    if (next)
        return say(tr("This one is still to write."));
    say(m_document.remarks().empty() ? tr("All is written.")
                                     : tr("All is written. Shift+F9 mends what can be mended."));
    goTo(stepAfter(m_document.script(), m_document.spot()));
}

/// What was written elsewhere, text for text into what is still to write.
void EditorControl::takeTexts(const QString& lines)
{
    const int taken = m_document.takeTexts(lines);
    if (taken > 1)
        say(tr("%1 texts are taken in, each where one was to write. Ctrl+Z takes them out again.").arg(taken));
    m_page->toFields();
}

void EditorControl::goToRemark(int remark)
{
    if (remark < 0 || remark >= static_cast<int>(m_document.remarks().size()))
        return;
    const Remark which = m_document.remarks()[static_cast<std::size_t>(remark)];
    m_document.select(which.spot);
    m_page->chooseRemark(remark);
    if (which.finding && which.finding->round)
        m_page->toRound(static_cast<int>(*which.finding->round));
    else if (m_document.step() && which.ofPicture)
        m_page->toSide(Side::picture);
    else
        m_page->toFields(which.begin, which.end);
}

/// The chosen one, or the first that can be mended.
void EditorControl::mend()
{
    const auto& remarks = m_document.remarks();
    int which = m_page->chosenRemark();
    if (which < 0 || which >= static_cast<int>(remarks.size()) || !remarks[static_cast<std::size_t>(which)].canMend())
        which = static_cast<int>(
            std::find_if(remarks.begin(), remarks.end(), [](const Remark& remark) { return remark.canMend(); }) -
            remarks.begin());
    if (m_document.mend(static_cast<std::size_t>(which))) {
        say(tr("Mended."));
        m_page->chooseRemark(std::min(which, static_cast<int>(m_document.remarks().size()) - 1));
    }
}

void EditorControl::choosePicture()
{
    if (!m_document.step())
        return;
    const QString chosen =
        m_setup.choosePicture
            ? m_setup.choosePicture(m_page)
            : QFileDialog::getOpenFileName(m_page, tr("A picture for this step"), {},
                                           tr("Pictures (*.svg *.png *.jpg *.jpeg *.webp *.bmp *.gif)"));
    if (chosen.isEmpty())
        return;
    const auto file = takePicture(chosen, folder(), QFileInfo(m_keeper.path()).completeBaseName());
    if (!file)
        return say(QString::fromStdString(file.error().message));
    m_document.setPicture(Picture{file->toStdString(), {}});
    say(tr("Now say in words what is to be seen on it."));
    m_page->toSide(Side::picture);
}

void EditorControl::editRounds(const std::optional<EditedRounds>& rounds, const QString& what)
{
    if (!rounds)
        return say(tr("A turn lasts 0.5 to 600 seconds, and a step has at least one."));
    m_document.setRounds(rounds->rounds, what);
    m_page->chooseTurn(rounds->at);
}

} // namespace vh::write
