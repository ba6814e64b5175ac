#include "app/write/rehearse.h"

#include "app/lead/lead_room.h"
#include "app/lead/publish.h"
#include "app/write/laid_out_words.h"
#include "app/write/rehearse_pages.h"
#include "common/base/text.h"

#include <QStackedWidget>

namespace vh::write
{

using lead::LeadRoom;

namespace
{
constexpr std::chrono::milliseconds kBeat{100};
}

Rehearsal::Rehearsal(const RehearsalSetup& setup, QObject* parent)
    : QObject(parent), m_setup(setup), m_pages(new QStackedWidget), m_before(new BeforePage(m_pages)),
      m_room(new LeadRoom(m_pages)), m_after(new AfterPage(m_pages)), m_groupWindow(new lead::GroupWindow)
{
    m_pages->setObjectName("room"); // the look's paper
    m_pages->setAttribute(Qt::WA_StyledBackground);
    for (QWidget* page :
         {static_cast<QWidget*>(m_before), static_cast<QWidget*>(m_room), static_cast<QWidget*>(m_after)})
        m_pages->addWidget(page);
    connect(m_before, &BeforePage::startRequested, this, &Rehearsal::begin);
    connect(m_before, &BeforePage::leaveRequested, this, &Rehearsal::leaveRequested);
    connect(m_after, &AfterPage::leaveRequested, this, &Rehearsal::leaveRequested);
    connect(m_after, &AfterPage::againRequested, this, [this] { showBefore(m_trouble); });
    bindRoom();
    m_timer.setTimerType(Qt::PreciseTimer);
    connect(&m_timer, &QTimer::timeout, this, &Rehearsal::beat);
}

Rehearsal::~Rehearsal()
{
    listen(false);
    delete m_groupWindow;
    delete m_pages;
}

QWidget* Rehearsal::widget() const
{
    return m_pages;
}

/// The room's other requests are about people, who are not here.
void Rehearsal::bindRoom()
{
    connect(m_room, &LeadRoom::commandRequested, this, &Rehearsal::command);
    connect(m_room, &LeadRoom::changeRequested, this, &Rehearsal::change);
    connect(m_room, &LeadRoom::endRequested, this, &Rehearsal::endPressed);
    connect(m_room, &LeadRoom::leaveRequested, this, &Rehearsal::leaveRequested);
    connect(m_room, &LeadRoom::groupWindowRequested, this, &Rehearsal::toggleGroupWindow);
    connect(m_room, &LeadRoom::groupWindowFillRequested, this, [this] {
        m_groupWindow->setFills(m_groupWindow->isVisible() && !m_groupWindow->fills());
        tellGroupWindow();
    });
    connect(m_room, &LeadRoom::groupWindowMoveRequested, this, [this] {
        if (m_groupWindow->isVisible())
            m_groupWindow->toNextDisplay();
        tellGroupWindow();
    });
    connect(m_groupWindow, &lead::GroupWindow::hideRequested, this, [this] {
        if (m_groupWindow->isVisible())
            toggleGroupWindow();
    });
    connect(m_groupWindow, &lead::GroupWindow::keyboardUnwanted, this, [this] { m_room->window()->activateWindow(); });
}

void Rehearsal::start(const ClassScript& script, const QString& folder)
{
    takePictures(script, folder);
    showBefore(m_trouble);
}

/// As homes get them. Where one cannot be read the class is rehearsed without pictures, and that is said.
void Rehearsal::takePictures(const ClassScript& script, const QString& folder)
{
    m_pictures.clear();
    m_trouble.clear();
    ClassScript shown = script;
    if (const auto published = lead::publish(script, folder)) {
        shown = published->script;
        for (const lead::Part& part : published->parts)
            if (&part != &published->parts.front()) // the script's
                m_pictures[hexOf(part.hash) + ".png"].loadFromData(reinterpret_cast<const uchar*>(part.bytes.data()),
                                                                   static_cast<int>(part.bytes.size()), "PNG");
    } else {
        m_trouble = QString::fromStdString(published.error().message);
        if (!published.error().where.empty())
            m_trouble.prepend(QString::fromStdString(published.error().where) + QStringLiteral(": "));
        for (Section& section : shown.sections)
            for (Step& step : section.steps)
                step.picture.reset();
    }
    m_script = std::make_shared<const ClassScript>(std::move(shown));
}

void Rehearsal::showBefore(const QString& trouble)
{
    m_timer.stop();
    m_class.reset();
    m_groupWindow->hide();
    m_before->setState({QString::fromStdString(m_script->title),
                        lengthWords(*m_script, pace()),
                        railOf(*m_script, pace()),
                        {trouble, NoticeLine::Tone::heed}});
    m_pages->setCurrentWidget(m_before);
}

void Rehearsal::begin()
{
    if (!m_script || m_class)
        return;
    const Instant now = m_setup.clock->now();
    m_class = std::make_unique<LocalClass>(m_script, now);
    m_model = lead::LeadModel();
    m_model.setLine(lead::LeadModel::LineNow::up);
    m_model.take(m_class->welcome(now), now);
    m_model.take(m_class->lease(), now);
    m_model.setScript(m_script);
    m_model.choose(lead::VoiceWay::elsewhere); // no bell, nothing to mute: nothing goes out
    listen(m_setup.ears != nullptr);
    command(CommandKind::start);
    m_pages->setCurrentWidget(m_room);
    m_timer.start(kBeat);
}

void Rehearsal::command(CommandKind kind)
{
    beat(); // what the clock has done so far
    if (m_class)
        press(m_model.press(kind, m_setup.clock->now()));
}

void Rehearsal::change(const lead::ChangeRequest& request)
{
    beat();
    if (m_class)
        press(m_model.change(request, m_setup.clock->now()));
}

void Rehearsal::press(const std::optional<wire::Lead>& lead)
{
    const Instant now = m_setup.clock->now();
    m_model.forgetEnd();
    if (lead) {
        const auto refused = m_class->press(*lead, now);
        m_model.pressAnswered(m_model.pressNumber(), refused ? &*refused : nullptr, now);
    }
    tell();
}

void Rehearsal::endPressed()
{
    if (m_model.pressEnd(m_setup.clock->now()))
        command(CommandKind::end);
    else
        refresh();
}

void Rehearsal::beat()
{
    if (!m_class)
        return;
    if (m_class->tick(m_setup.clock->now()))
        tell();
    else
        refresh();
}

/// The model hears of the place as it would from a relay.
void Rehearsal::tell()
{
    m_model.take(m_class->place(), m_setup.clock->now());
    if (m_class->state().phase == Phase::ended)
        return finish();
    refresh();
}

void Rehearsal::finish()
{
    m_timer.stop();
    listen(false);
    m_groupWindow->hide();
    const ClassTrace trace = m_class->trace();
    m_class.reset();
    const PaceSample pace = paceOf(*m_script, trace, Led::rehearsal);
    if (m_setup.pace)
        m_setup.pace->learn(pace);
    m_after->setState(QString::fromStdString(m_script->title),
                      resultOf(*m_script, trace, !pace.empty(), m_setup.pace ? m_setup.pace->words() : QStringList()));
    m_pages->setCurrentWidget(m_after);
    emit ended(pace);
}

void Rehearsal::listen(bool wanted)
{
    if (!m_setup.ears || wanted == m_listening)
        return;
    m_listening = wanted;
    wanted ? m_setup.ears->start(m_setup.microphone) : m_setup.ears->stop();
}

/// An outline: nobody is reached.
LevelBar::State Rehearsal::sign() const
{
    LevelBar::State sign{tr("A rehearsal: nobody hears you"), std::nullopt, false};
    if (m_listening) {
        m_setup.ears->drainFrames([](const VoiceFrame&) {});
        if (const auto heard = m_setup.ears->snapshot(); heard.frameCount > 0)
            sign.dbfsA = heard.frame.fastDbfsA;
    }
    return sign;
}

void Rehearsal::refresh()
{
    m_model.setOwnLevel(sign());
    m_model.followChanges(m_setup.clock->now());
    m_view = m_model.view(m_setup.clock->now(), {}, [this](const std::string& file) {
        const auto found = m_pictures.find(file);
        return found == m_pictures.end() ? QImage() : found->second;
    });
    m_view.rehearsal = true;
    m_room->setState(m_view);
    if (m_groupWindow->isVisible())
        m_groupWindow->setState(m_view.group, m_view.title);
}

void Rehearsal::toggleGroupWindow()
{
    if (m_groupWindow->isVisible())
        m_groupWindow->hide();
    else
        m_groupWindow->appear(*m_room);
    tellGroupWindow();
}

void Rehearsal::tellGroupWindow()
{
    m_model.setGroupWindow({m_groupWindow->isVisible(), m_groupWindow->fills(), lead::GroupWindow::otherDisplays()});
    refresh();
}

} // namespace vh::write
