#pragma once
// What Qt Multimedia reads from when it plays: asks the feed for 48 kHz mono and turns it into the device's format and
// rate. Private to app/sound; on the playback thread; allocates nothing once built.
#include "app/sound/sound_output.h"
#include "common/signal/resampler.h"

#include <QAudioFormat>
#include <QAudioSink>
#include <QIODevice>

#include <array>
#include <vector>

namespace vh::sound
{

class Outlet final : public QIODevice
{
public:
    /// A valid format whose rate the resampler serves.
    Outlet(const QAudioFormat& format, SampleFeed& feed);
    /// Who knows how much has been played; must be set before sound is asked for, or nobody knows.
    void setSink(const QAudioSink* sink) { m_sink = sink; }

    [[nodiscard]] bool isSequential() const override { return true; }
    [[nodiscard]] qint64 bytesAvailable() const override { return 1 << 20; } ///< it never ends

protected:
    qint64 readData(char* data, qint64 most) override;
    qint64 writeData(const char* /*data*/, qint64 /*count*/) override { return -1; }

private:
    static constexpr std::size_t kPiece = 480;

    void fetch();
    [[nodiscard]] std::chrono::microseconds untilHeard() const;

    QAudioFormat m_format;
    SampleFeed& m_feed;
    const QAudioSink* m_sink = nullptr;
    Resampler m_resampler;
    std::array<float, kPiece> m_piece{};
    std::vector<float> m_waiting; ///< at the device's rate, asked for and not yet taken
    std::size_t m_from = 0;
    std::size_t m_to = 0;
    qint64 m_framesTaken = 0;
};

} // namespace vh::sound
