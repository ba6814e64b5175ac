// What people write and send: at home, at the desk, before the leader.
#include "app/help/word_list.h"
#include "app/join/words_field.h"
#include "demo/stage/press.h"
#include "demo/tour/tour.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>

namespace vh::tour
{

namespace
{

/// A bed of young plants, as somebody might photograph it.
QImage plants()
{
    QImage image(1200, 900, QImage::Format_RGB32);
    image.fill(QColor("#C7DCE6"));
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(0, 480, 1200, 420, QColor("#6B4A32"));
    painter.setPen(Qt::NoPen);
    for (int row = 0; row < 3; ++row)
        for (int plant = 0; plant < 7 - row; ++plant) {
            const QPointF foot(110 + 60 * row + plant * (160 + 15 * row), 580 + 110 * row);
            const double size = 46 + 16 * row;
            painter.setBrush(QColor("#3E7B3A"));
            painter.drawEllipse(foot + QPointF(-size / 2, -size / 3), size / 2, size / 4);
            painter.drawEllipse(foot + QPointF(size / 2, -size / 3), size / 2, size / 4);
            painter.setBrush(QColor("#5A9C4B"));
            painter.drawEllipse(foot + QPointF(0, -size), size / 3, size / 1.6);
        }
    return image;
}

void press(QWidget& widget, int key, const QString& text = {})
{
    for (const auto type : {QEvent::KeyPress, QEvent::KeyRelease}) {
        QKeyEvent event(type, key, Qt::NoModifier, text);
        QCoreApplication::sendEvent(&widget, &event);
    }
    stage::letRun(std::chrono::milliseconds(450)); // a press sooner than that belongs to the one before
}

} // namespace

/// Ruth's, and what becomes of it at the desk; gives its number.
quint64 Tour::writes(const QString& words)
{
    auto* field = m_participant->findChild<join::WordsField*>();
    need(field && field->isVisible(), "there is no place to write");
    field->setFocus();
    field->insertPlainText(words);
    pressIn(*m_participant, "Send");
    quint64 item = 0;
    until(
        [&] {
            for (const help::WordRow& row : m_helper->deskControl()->view().lists.toRead->rows())
                if (row.text == words)
                    item = row.item;
            return item != 0;
        },
        "a line did not come to the desk");
    stage::letRun(std::chrono::milliseconds(450));
    return item;
}

void Tour::deskKey(quint64 item, int key)
{
    help::DeskRoom& room = m_helper->deskControl()->room();
    m_helper->activateWindow();
    room.chooseToRead(item);
    room.toRead().setFocus();
    press(room.toRead(), key, key < 0x80 ? QString(QLatin1Char(static_cast<char>(key))) : QString());
}

void Tour::wordsGoRound()
{
    auto& lead = *m_leader->leadControl();
    const auto& desk = m_helper->deskControl()->view();
    pressIn(*m_participant, "Board");
    const quint64 toBoard = writes("The tomatoes on my sill have come through the frost.");
    const quint64 question = writes("Which day is the plant sale?");
    const quint64 alone = writes("I choked at breakfast, and I am still frightened.");
    const quint64 toAnswer = writes("Where do I find the handout?");
    picture(*m_participant, "join-board");
    m_helper->deskControl()->room().chooseToRead(toBoard);
    picture(*m_helper, "desk-words");
    deskKey(toBoard, Qt::Key_1);
    picture(*m_helper, "desk-going-up");
    deskKey(question, Qt::Key_3);
    deskKey(alone, Qt::Key_4);
    until([&] { return !lead.view().desk.clinician.empty(); }, "what needs a clinician did not reach the leader");
    picture(*m_leader, "lead-needs-clinician");
    m_helper->deskControl()->room().chooseToRead(toAnswer);
    pressIn(*m_helper, "Answer");
    for (auto* line : m_helper->findChildren<QLineEdit*>())
        if (line->isVisible() && line->placeholderText() == "Your answer")
            line->insert("On your screen before class, and again when it is over: press Handout.");
    picture(*m_helper, "desk-answer");
    pressIn(*m_helper, "Send");
    until([&] { return desk.lists.board->rowCount() > 0; }, "a line did not come onto the board");
    picture(*m_helper, "desk-board");
    pictureGoesRound();
    emit lead.room().deskRequested({lead::DeskRequest::Kind::showDesk, 0});
    picture(*m_leader, "lead-desk");
    emit lead.room().deskRequested({lead::DeskRequest::Kind::close, 0});
    press(m_helper->deskControl()->room().toRead(), Qt::Key_L, "l");
    until([&] { return !desk.acts.empty(); }, "what was done is not told");
    picture(*m_helper, "desk-done");
    press(*m_helper->focusWidget(), Qt::Key_Escape);
}

/// From the board at home to the screens of all.
void Tour::pictureGoesRound()
{
    auto& lead = *m_leader->leadControl();
    const auto& toRead = m_helper->deskControl()->view().lists.toRead;
    QGuiApplication::clipboard()->setImage(plants());
    pressIn(*m_participant, "Send a picture");
    picture(*m_participant, "join-picture-choose");
    pressIn(*m_participant, "Paste a picture");
    until([&] { return stage::canPress(*m_participant, "Send it"); }, "a picture was not made ready");
    picture(*m_participant, "join-picture-look");
    pressIn(*m_participant, "Send it");
    picture(*m_participant, "join-picture-agree");
    pressIn(*m_participant, "Yes, the group may see them");
    quint64 item = 0;
    until(
        [&] {
            for (const help::WordRow& row : toRead->rows())
                if (row.isPicture && !row.picture.isNull())
                    item = row.item;
            return item != 0;
        },
        "a picture did not come to the desk");
    deskKey(item, Qt::Key_Return);
    until([&] { return stage::canPress(*m_helper, "To the group's window"); }, "a picture was not opened");
    stage::letRun(std::chrono::milliseconds(450));
    picture(*m_helper, "desk-picture");
    pressIn(*m_helper, "To the group's window");
    stage::letRun(std::chrono::milliseconds(600));
    picture(*m_leader, "lead-picture");
    pressIn(*m_participant, "Back");
    press(lead.room(), Qt::Key_P, "p");
    picture(*m_participant, "join-picture-for-all");
    picture(*m_leader, "lead-picture-for-all");
    picture(lead.groupWindow(), "group-window-picture");
    press(lead.room(), Qt::Key_P, "p");
}

} // namespace vh::tour
