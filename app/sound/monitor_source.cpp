// What the whole system plays, from a PulseAudio server (or PipeWire in its stead): the monitor of its standard output,
// which follows when another output becomes the standard one. Qt does not show monitors, so the server is asked itself.
#include "app/sound/sound_source.h"

#include <pulse/pulseaudio.h>

#include <atomic>

namespace vh::sound
{

namespace
{

constexpr pa_sample_spec kFormat{PA_SAMPLE_FLOAT32NE, 48'000, 1};
constexpr std::uint32_t kPieceBytes = 480 * sizeof(float); // 10 ms: the microphone waits for it

/// One connection with its thread, on which samples come. Callbacks run with the loop's lock held.
class MonitorSource final : public SoundSource
{
public:
    MonitorSource() = default;
    ~MonitorSource() override { halt(); }

    [[nodiscard]] int sampleRateHz() const override { return static_cast<int>(kFormat.rate); }
    [[nodiscard]] SourceHealth health() const override { return m_health.load(); }
    void stop() override { halt(); }

    void start(SampleSink& sink) override
    {
        halt();
        m_sink = &sink;
        m_health = SourceHealth::good;
        m_loop = pa_threaded_mainloop_new();
        m_context = pa_context_new(pa_threaded_mainloop_get_api(m_loop), "voicehall");
        pa_context_set_state_callback(m_context, &MonitorSource::contextChanged, this);
        if (pa_context_connect(m_context, nullptr, PA_CONTEXT_NOAUTOSPAWN, nullptr) < 0 ||
            pa_threaded_mainloop_start(m_loop) < 0)
            m_health = SourceHealth::failed;
    }

private:
    static void contextChanged(pa_context* context, void* self)
    {
        auto* source = static_cast<MonitorSource*>(self);
        const pa_context_state_t state = pa_context_get_state(context);
        if (state == PA_CONTEXT_READY)
            source->open();
        else if (!PA_CONTEXT_IS_GOOD(state))
            source->m_health = SourceHealth::failed;
    }

    void open()
    {
        m_stream = pa_stream_new(m_context, "what is played", &kFormat, nullptr);
        pa_stream_set_state_callback(m_stream, &MonitorSource::streamChanged, this);
        pa_stream_set_read_callback(m_stream, &MonitorSource::arrived, this);
        constexpr auto unset = static_cast<std::uint32_t>(-1);
        const pa_buffer_attr pieces{unset, unset, unset, unset, kPieceBytes};
        if (pa_stream_connect_record(m_stream, "@DEFAULT_MONITOR@", &pieces, PA_STREAM_ADJUST_LATENCY) < 0)
            m_health = SourceHealth::failed;
    }

    static void streamChanged(pa_stream* stream, void* self)
    {
        if (!PA_STREAM_IS_GOOD(pa_stream_get_state(stream)))
            static_cast<MonitorSource*>(self)->m_health = SourceHealth::failed;
    }

    static void arrived(pa_stream* stream, std::size_t /*bytes*/, void* self)
    {
        const void* data = nullptr;
        std::size_t bytes = 0;
        while (pa_stream_readable_size(stream) > 0 && pa_stream_peek(stream, &data, &bytes) == 0 && bytes > 0) {
            if (data) // a hole is silence that was not captured
                static_cast<MonitorSource*>(self)->m_sink->take(
                    std::span(static_cast<const float*>(data), bytes / sizeof(float)));
            pa_stream_drop(stream);
        }
    }

    void halt()
    {
        if (!m_loop)
            return;
        pa_threaded_mainloop_lock(m_loop);
        if (m_stream) {
            pa_stream_set_read_callback(m_stream, nullptr, nullptr);
            pa_stream_set_state_callback(m_stream, nullptr, nullptr);
            pa_stream_disconnect(m_stream);
            pa_stream_unref(m_stream);
            m_stream = nullptr;
        }
        pa_context_set_state_callback(m_context, nullptr, nullptr);
        pa_context_disconnect(m_context);
        pa_context_unref(m_context);
        pa_threaded_mainloop_unlock(m_loop);
        pa_threaded_mainloop_stop(m_loop);
        pa_threaded_mainloop_free(m_loop);
        m_loop = nullptr;
        m_sink = nullptr;
    }

    std::atomic<SourceHealth> m_health{SourceHealth::good};
    SampleSink* m_sink = nullptr;
    pa_threaded_mainloop* m_loop = nullptr;
    pa_context* m_context = nullptr;
    pa_stream* m_stream = nullptr;
};

} // namespace

std::unique_ptr<SoundSource> makeMonitorSource()
{
    return std::make_unique<MonitorSource>();
}

} // namespace vh::sound
