#include "app/sound/pulse_volume.h"

#include <pulse/pulseaudio.h>

namespace vh::sound
{

/// One connection to the server with its thread. All fields below m_loop are guarded by the loop's lock.
class PulseVolume::Line
{
public:
    Line() : m_loop(pa_threaded_mainloop_new())
    {
        m_context = pa_context_new(pa_threaded_mainloop_get_api(m_loop), "voicehall");
        const bool began = pa_context_connect(m_context, nullptr, PA_CONTEXT_NOAUTOSPAWN, nullptr) >= 0 &&
                           pa_threaded_mainloop_start(m_loop) >= 0;
        m_dead = !began;
    }
    Line(const Line&) = delete;
    Line& operator=(const Line&) = delete;
    ~Line()
    {
        pa_threaded_mainloop_lock(m_loop);
        pa_context_disconnect(m_context);
        pa_context_unref(m_context);
        pa_threaded_mainloop_unlock(m_loop);
        pa_threaded_mainloop_stop(m_loop);
        pa_threaded_mainloop_free(m_loop);
    }

    /// False once the server is gone: make another line.
    [[nodiscard]] bool alive()
    {
        if (m_dead)
            return false;
        pa_threaded_mainloop_lock(m_loop);
        const bool good = PA_CONTEXT_IS_GOOD(pa_context_get_state(m_context));
        pa_threaded_mainloop_unlock(m_loop);
        return good;
    }

    std::optional<float> ask(const QByteArray& name)
    {
        pa_threaded_mainloop_lock(m_loop);
        if (name != m_name) {
            m_name = name;
            m_volume.reset();
        }
        if (pa_context_get_state(m_context) == PA_CONTEXT_READY) {
            if (pa_operation* asked =
                    pa_context_get_source_info_by_name(m_context, name.constData(), &Line::take, this))
                pa_operation_unref(asked);
        }
        const auto volume = m_volume;
        pa_threaded_mainloop_unlock(m_loop);
        return volume;
    }

private:
    static void take(pa_context* /*context*/, const pa_source_info* info, int end, void* self)
    {
        auto* line = static_cast<Line*>(self);
        if (end != 0 || !info || line->m_name != info->name)
            return;
        // Linear, as samples are scaled; the server's own unit is cubic.
        line->m_volume = info->mute ? 0.0F : static_cast<float>(pa_sw_volume_to_linear(pa_cvolume_avg(&info->volume)));
    }

    pa_threaded_mainloop* m_loop;
    pa_context* m_context = nullptr;
    bool m_dead = false;
    QByteArray m_name;
    std::optional<float> m_volume;
};

PulseVolume::PulseVolume() = default;
PulseVolume::~PulseVolume() = default;

std::optional<float> PulseVolume::of(const QByteArray& sourceName)
{
    if (!m_line || !m_line->alive())
        m_line = std::make_unique<Line>();
    return m_line->ask(sourceName);
}

} // namespace vh::sound
