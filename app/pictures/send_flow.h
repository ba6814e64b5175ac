#pragma once
// A participant's way to send a picture: choose, look, send. Holds what is chosen; what is on its way is the sender's.
// No widget. GUI thread.
#include "app/pictures/prepare.h"
#include "app/pictures/send_view.h"
#include "app/pictures/sender.h"

namespace vh::pictures
{

class SendFlow : public QObject
{
    Q_OBJECT
public:
    explicit SendFlow(PictureSender& sender, QObject* parent = nullptr);

    [[nodiscard]] bool isOpen() const { return m_open; }
    [[nodiscard]] const SendView& view() const { return m_view; }

    void open();
    /// From a file or what was copied; opens it too. Nothing: what was copied is no picture.
    void take(const std::optional<Source>& source);
    /// `agreed`: this person's pictures may be shown; else it is asked first.
    void send(const QString& caption, bool agreed);
    /// The answer to that; a yes sends.
    void agree(bool yes);
    /// One step back: to the class, or from the question to the picture.
    void back();

signals:
    void changed();
    /// The person has agreed that pictures are shown.
    void agreed();
    /// It has been handed over to be sent.
    void handedOver(const vh::RequestId& picture);

private:
    void prepared(int chosen, const Result<Prepared>& prepared);
    void handOver();
    void show(SendView::Stage stage, const QString& notice = {});

    PictureSender& m_sender;
    bool m_open = false;
    SendView m_view;
    QByteArray m_bytes;
    QString m_caption;
    int m_chosen = 0; ///< one more with each: an earlier one that is still being read is forgotten
};

} // namespace vh::pictures
