// What the participant's room does with pictures: chosen, looked at, sent, seen large, taken back. Their pages stand
// before the board, from which they are opened.
#include "app/join/join_control.h"
#include "app/pictures/choose.h"

#include <QClipboard>
#include <QGuiApplication>

namespace vh::join
{

namespace
{

/// Of a picture that is on its way: no key of a line is so large.
std::uint64_t keyOf(const RequestId& picture)
{
    return static_cast<std::uint64_t>(std::hash<RequestId>{}(picture)) | (std::uint64_t{1} << 63);
}

BoardRow rowOf(const pictures::PictureSender::Going& going, bool lineUp)
{
    BoardRow row;
    row.key = keyOf(going.picture);
    row.kind = BoardRow::Kind::mine;
    row.head = JoinControl::tr("You");
    row.text = going.caption.isEmpty() ? JoinControl::tr("A picture") : going.caption;
    row.below = !lineUp                ? JoinControl::tr("goes out when the line is back")
                : going.percent() == 0 ? JoinControl::tr("on its way")
                                       : JoinControl::tr("on its way, %1 percent").arg(going.percent());
    row.act = JoinControl::tr("Take it back");
    row.sign = look::Sign::undo;
    row.picture = going.small;
    row.pictureDescribed = JoinControl::tr("A picture");
    return row;
}

} // namespace

void JoinControl::bindPictures(const JoinRoom& room)
{
    using pictures::HomePictures;
    using pictures::PictureSender;
    m_model.setPictures([this](const wire::Hash& hash) { return m_pictures.small(hash); });
    connect(&m_pictures, &HomePictures::changed, this, &JoinControl::render);
    connect(&m_pictures.flow(), &pictures::SendFlow::agreed, this, [this] { carryOut(m_model.agreeToPictures()); });
    connect(&m_pictures.sender(), &PictureSender::sent, this, [this] {
        m_model.board().pictureSent();
        render();
    });
    connect(&m_pictures.sender(), &PictureSender::refused, this, [this](const RequestId&, const Error& error) {
        m_model.board().pictureRefused(QString::fromStdString(error.message));
        render();
    });
    connect(&room, &JoinRoom::pictureRequested, this, [this] { m_pictures.openSend(); });
    connect(&room, &JoinRoom::pictureFileRequested, this, [this] {
        pictures::choosePicture(m_room,
                                [this](const QString& path) { m_pictures.flow().take(pictures::Source(path)); });
    });
    connect(&room, &JoinRoom::picturePasteRequested, this,
            [this] { m_pictures.paste(QGuiApplication::clipboard()->mimeData()); });
    connect(&room, &JoinRoom::pictureSendRequested, this, [this](const QString& caption) { m_pictures.send(caption); });
    connect(&room, &JoinRoom::pictureAgreementRequested, this, [this](bool yes) { m_pictures.flow().agree(yes); });
    connect(&room, &JoinRoom::pictureBackRequested, this, [this] { m_pictures.back(); });
    connect(&room, &JoinRoom::pictureTakeBackRequested, this, [this] {
        const auto looked = m_pictures.looked();
        m_pictures.closeLarge();
        if (looked && looked->mayTakeBack)
            carryOut(m_model.pressLine(looked->key));
    });
}

/// The control of a line of the board: a picture is seen large.
void JoinControl::pressLine(quint64 line)
{
    for (const auto& going : m_pictures.sender().going())
        if (keyOf(going.picture) == line)
            return m_pictures.sender().cancel(going.picture);
    if (const auto picture = m_model.pictureAt(line))
        m_pictures.look(*picture);
    else
        carryOut(m_model.pressLine(line));
}

void JoinControl::followPictures()
{
    m_pictures.setAgreed(m_model.agreements().pictures);
    m_pictures.setHeldBack(m_model.board().boardRests());
    m_model.picturesAre(m_pictures.shown(), m_pictures.sender().going().size());
    if (const auto& looked = m_pictures.looked())
        m_pictures.lookedIs(m_model.pictureAt(looked->key));
}

/// Over the board only: whatever else asks for the screen has it, and they are there again afterwards.
void JoinControl::showPictures(JoinView& view) const
{
    auto* board = std::get_if<BoardView>(&view);
    if (!board || m_model.screen() != Screen::writing)
        return;
    if (m_pictures.page() == pictures::HomePictures::Page::send) {
        view = m_pictures.sendView();
    } else if (m_pictures.page() == pictures::HomePictures::Page::large) {
        view = m_pictures.largeView();
    } else {
        for (const auto& going : m_pictures.sender().going())
            board->rows.push_back(rowOf(going, m_line.state() == link::LineState::in));
    }
}

} // namespace vh::join
