#pragma once
// Where one audio device of Qt Multimedia works: a thread of its own, so that a busy screen leaves no gaps. Qt's audio
// objects keep timers that cannot be moved, so they are made and ended there. GUI thread, but for what is handed over.
#include <QAudioDevice>
#include <QAudioFormat>
#include <QObject>
#include <QThread>

#include <memory>
#include <optional>
#include <utility>

namespace vh::sound
{

class AudioThread
{
public:
    explicit AudioThread(const QString& name) { m_thread.setObjectName(name); }

    /// `open` makes the device's objects; it runs on the thread, soon.
    template <class Open>
    void begin(Open open)
    {
        m_home = std::make_unique<QObject>();
        m_home->moveToThread(&m_thread);
        m_thread.start(QThread::TimeCriticalPriority);
        QMetaObject::invokeMethod(m_home.get(), std::move(open));
    }
    /// `close` ends them, on the thread; when this returns, the device is released. Nothing when it has not begun.
    template <class Close>
    void end(Close close)
    {
        if (!m_thread.isRunning())
            return;
        QMetaObject::invokeMethod(m_home.get(), [this, close] {
            close();
            m_thread.quit();
        });
        m_thread.wait();
        m_home.reset();
    }
    /// Lives on the thread: what is connected to it runs there.
    [[nodiscard]] QObject* home() const { return m_home.get(); }

private:
    QThread m_thread;
    std::unique_ptr<QObject> m_home;
};

/// Mono float at `rateHz` where the device takes that, else what it likes best; nothing where that cannot be served.
std::optional<QAudioFormat> usableFormat(const QAudioDevice& device, int rateHz);
/// Of a QAudioSource or QAudioSink: nothing more will come of it.
template <class Audio>
[[nodiscard]] bool hasFailed(const Audio& audio)
{
    const QAudio::Error error = audio.error();
    return error == QAudio::OpenError || error == QAudio::IOError || error == QAudio::FatalError;
}

} // namespace vh::sound
