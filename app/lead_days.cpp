#include "app/lead_days.h"

#include "app/write/class_offers.h"
#include "app/write/day_words.h"
#include "app/write/week_plan.h"
#include "common/script/review.h"

#include <QDateTime>

namespace vh
{

namespace
{

QDate dayOf(Instant when)
{
    return QDateTime::fromMSecsSinceEpoch(when.time_since_epoch().count()).date();
}

QString textOf(const std::string& utf8)
{
    return QString::fromStdString(utf8);
}

} // namespace

LeadDays::LeadDays(const Setup& setup, QObject* parent)
    : QObject(parent), m_setup(setup), m_file(setup.folder, setup.group), m_days(m_file.load())
{
    connect(setup.library, &write::ClassLibrary::changed, this, &LeadDays::offer);
    connect(setup.lead, &lead::LeadControl::classHeld, this, &LeadDays::keep);
    if (!m_file.damagedAside().isEmpty())
        setup.lead->say(write::damagedWords(m_file.damagedAside()));
    offer();
    setup.library->look();
}

QDate LeadDays::today() const
{
    return dayOf(m_setup.clock->now());
}

void LeadDays::offer()
{
    m_setup.lead->offer(write::offersOf(*m_setup.library, m_days, today()));
    m_setup.lead->setWeek(write::weekOf(m_days, today()));
}

void LeadDays::keep(const lead::HeldNow& held)
{
    write::HeldClass done;
    done.what = {dayOf(held.startedAt), m_setup.library->keyOf(held.path), textOf(held.script->title),
                 textOf(held.script->theme)};
    if (held.path.isEmpty()) // opened elsewhere: it may still be one of the library's
        done.what.key = m_setup.library->keyOfTitle(done.what.title);
    done.planned = held.planned;
    done.took = held.took;
    done.sentences = sentencesSaid(*held.script);
    m_days = m_file.load(); // another window may have planned something
    m_days.keep(std::move(done));
    if (!m_file.save(m_days))
        m_setup.lead->say(tr("It could not be written down that this class was held. Is the disk full?"));
    offer();
}

} // namespace vh
