#pragma once
// What a call for help sounds like at the desk: two soft strokes of a bell. Opens the loudspeaker for it and closes it
// again; on a computer without one it is only shown. GUI thread.
#include "app/sound/loudspeaker.h"
#include "app/sound/voice_feed.h"

#include <QTimer>

#include <memory>
#include <vector>

namespace vh
{

/// 48 kHz mono.
std::vector<float> callRing();
/// The loudspeaker is open for so long: it takes a moment to open, and the strokes ring out.
inline constexpr std::chrono::milliseconds kRingTakes{4000};

class CallBell : public QObject
{
    Q_OBJECT
public:
    explicit CallBell(QObject* parent = nullptr);
    ~CallBell() override;
    /// The standard one unless said.
    void setLoudspeaker(const sound::DeviceChoice& choice) { m_where = choice; }
    void ring();

private:
    sound::DeviceChoice m_where = sound::DeviceChoice::standardDevice();
    VoiceMix m_nobody;
    sound::MixFeed m_feed{m_nobody};
    std::unique_ptr<sound::Loudspeaker> m_loudspeaker; ///< made when it is first wanted
    QTimer m_off;
};

} // namespace vh
