#include "app/pictures/send_flow.h"

#include "app/pictures/shelf.h"

namespace vh::pictures
{

using Stage = SendView::Stage;

SendFlow::SendFlow(PictureSender& sender, QObject* parent) : QObject(parent), m_sender(sender) {}

void SendFlow::show(Stage stage, const QString& notice)
{
    m_view.stage = stage;
    m_view.notice = notice;
    emit changed();
}

void SendFlow::open()
{
    if (m_open)
        return;
    m_open = true;
    show(Stage::choosing);
}

void SendFlow::take(const std::optional<Source>& source)
{
    m_open = true;
    if (!source) {
        if (m_view.stage == Stage::looking && !m_bytes.isEmpty())
            return; // the one that is looked at stays
        return show(Stage::choosing, tr("There is no picture to paste. Please choose one from a file."));
    }
    show(Stage::preparing);
    prepareElsewhere(*source, this,
                     [this, chosen = ++m_chosen](const Result<Prepared>& made) { prepared(chosen, made); });
}

void SendFlow::prepared(int chosen, const Result<Prepared>& prepared)
{
    if (chosen != m_chosen || !m_open)
        return;
    m_bytes = prepared ? prepared->bytes : QByteArray();
    m_view.picture = prepared ? prepared->shown : QImage();
    prepared ? show(Stage::looking) : show(Stage::choosing, QString::fromStdString(prepared.error().message));
}

void SendFlow::send(const QString& caption, bool agreed)
{
    if (m_view.stage != Stage::looking)
        return;
    m_caption = caption.simplified();
    agreed ? handOver() : show(Stage::agreeing);
}

void SendFlow::agree(bool yes)
{
    if (m_view.stage != Stage::agreeing)
        return;
    if (!yes)
        return show(Stage::looking);
    emit agreed();
    handOver();
}

void SendFlow::handOver()
{
    const RequestId picture = m_sender.send(m_bytes, smallOf(m_view.picture), m_caption);
    if (picture.isNull())
        return show(Stage::choosing, tr("Several pictures of yours are still on their way. Please wait for them."));
    m_open = false;
    m_view = {};
    m_bytes.clear();
    emit handedOver(picture);
    emit changed();
}

void SendFlow::back()
{
    if (m_view.stage == Stage::agreeing)
        return show(Stage::looking);
    m_open = false;
    ++m_chosen;
    m_view = {};
    m_bytes.clear();
    emit changed();
}

} // namespace vh::pictures
