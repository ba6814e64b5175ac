#pragma once
// A class for its sound: the real relay as a process, and on lines to it the whole controls of leaders and homes, whose
// microphones are tones in files and whose loudspeakers play to nowhere, at the pace of real ones. What a loudspeaker
// plays is heard by a tap. GUI thread.
#include "app/join/join_control.h"
#include "app/lead/lead_control.h"
#include "common/wire/join_link.h"
#include "demo/stage/group_maker.h"
#include "tests/app/sound/tone_file.h"
#include "tests/stage/relay_process.h"
#include "tests/whole/voice_tap.h"

#include <QtTest>

namespace vh::testing
{

inline QString toneFile(const QTemporaryDir& folder, Tone tone, double seconds = 120)
{
    const QString file = folder.filePath(QString::number(hzOf(tone)) + ".wav");
    return QFile::exists(file) || sound::writeTone(file, {.seconds = seconds, .hz = hzOf(tone)}) ? file : QString();
}

/// A leader's or stand-in's program, without its window.
struct Leading {
    explicit Leading(const QString& voice) : control(line, clock, ears)
    {
        ears.addListener(tap);
        control.setSound(sound::DeviceChoice::fileOf(voice));
        control.setLoudspeaker(sound::DeviceChoice::fileOf({}));
    }
    [[nodiscard]] const lead::LeadView& view() const { return control.view(); }

    SystemClock clock;
    std::shared_ptr<VoiceTap> tap = std::make_shared<VoiceTap>();
    link::Line line{clock};
    sound::Ears ears;
    lead::LeadControl control;
};

/// A home, and what came over its line of voices, in order.
struct InHome {
    struct Event {
        enum class Kind : std::uint8_t { frame, speakingOn, speakingOff } kind = Kind::frame;
        std::uint32_t stream = 0;
        std::uint64_t sample = 0;
    };
    InHome(const QString& profile, const QString& voice)
        : control({&clock, profile, sound::DeviceChoice::fileOf(voice), true, sound::DeviceChoice::fileOf({})}, room)
    {
        control.ears().addListener(tap);
        QObject::connect(&control.sound(), &join::JoinSound::frameCame, &control,
                         [this](std::uint32_t stream, std::uint64_t sample) {
                             log.push_back({Event::Kind::frame, stream, sample});
                         });
        QObject::connect(&control.line(), &link::Line::received, &control, [this](const wire::ToClient& message) {
            if (const auto* said = std::get_if<wire::Speaking>(&message))
                log.push_back({said->on ? Event::Kind::speakingOn : Event::Kind::speakingOff, said->stream, 0});
        });
    }
    /// Through the questions and past the mic check, into class.
    [[nodiscard]] bool comeIn(const wire::JoinLink& link, const QString& name)
    {
        using join::Screen;
        const auto soon = [](auto holds) { return QTest::qWaitFor(holds, 20'000); };
        control.startNew();
        emit room.submitRequested({QString::fromStdString(wire::format(link)), {}, name});
        if (!soon([this] { return control.model().screen() == Screen::agreements; }))
            return false;
        while (control.model().screen() == Screen::agreements)
            emit room.choiceRequested(0);
        emit room.submitRequested({"Mill Lane 3", "Jonas, 555 0142"});
        emit room.choiceRequested(0);
        while (control.model().screen() == Screen::check)
            emit room.checkPressed(join::CheckPress::skip);
        return soon([this] {
            return control.model().screen() == Screen::inClass && control.ears().state() == sound::EarsState::hearing;
        });
    }
    [[nodiscard]] PersonId person() { return control.line().welcome()->person; }
    [[nodiscard]] std::vector<std::uint64_t> framesOf(std::uint32_t stream) const
    {
        std::vector<std::uint64_t> samples;
        for (const Event& event : log)
            if (event.kind == Event::Kind::frame && event.stream == stream)
                samples.push_back(event.sample);
        return samples;
    }

    SystemClock clock;
    std::shared_ptr<VoiceTap> tap = std::make_shared<VoiceTap>();
    std::vector<Event> log;
    join::JoinRoom room;
    join::JoinControl control;
};

/// The relay with one group, and how people come to it.
class VoiceHall
{
public:
    [[nodiscard]] bool start()
    {
        if (!m_relay.start())
            return false;
        m_relay.keepPort();
        m_group = stage::makeGroup(m_relay.config(), "Lakeside voices").value().id;
        return true;
    }
    RelayProcess& relay() { return m_relay; }
    [[nodiscard]] wire::JoinLink link(Role role) const
    {
        wire::JoinLink link;
        link.host = "127.0.0.1";
        link.port = m_relay.port();
        link.token = stage::makeLink(m_relay.config(), m_group, role).value();
        return link;
    }
    [[nodiscard]] link::Entry entry(Role role, const char* name) const
    {
        link::Entry entry;
        entry.how = link::Entry::How::redeem;
        entry.host = "127.0.0.1";
        entry.port = m_relay.port();
        entry.token = *link(role).token;
        entry.name = name;
        entry.device = "test";
        entry.keys = wire::makeKeyPair();
        entry.plain = true;
        return entry;
    }
    /// The same person, whose program was started anew.
    [[nodiscard]] link::Entry again(const link::Line& line, Role role) const
    {
        link::Entry entry = line.entry();
        entry.how = link::Entry::How::login;
        entry.group = m_group;
        entry.role = role;
        return entry;
    }

private:
    QTemporaryDir m_folder;
    RelayProcess m_relay{m_folder.path(), {"--tls", "off"}};
    GroupId m_group;
};

} // namespace vh::testing
