#include "app/write/write_control.h"

#include "app/write/class_offers.h"
#include "app/write/day_words.h"

#include <QDateTime>

namespace vh::write
{

WriteControl::WriteControl(const WriteSetup& setup, QObject* parent)
    : QObject(parent), m_setup(setup), m_library(*setup.library), m_libraryState(m_library, m_days),
      m_daysState(m_library, m_days), m_room(new WriteRoom), m_writing(new Writing(writingSetup(), this))
{
    bindLibrary();
    bindDays();
    bindWriting();
    connect(&m_library, &ClassLibrary::changed, this, [this] { refresh(); });
    connect(&m_library, &ClassLibrary::settled, this, [this] { refresh(); });
    loadDays();
    m_library.look();
    toLibrary();
}

WriteControl::~WriteControl()
{
    delete m_writing; // before the room that its pages are in
    delete m_room;
}

QDate WriteControl::today() const
{
    return QDateTime::fromMSecsSinceEpoch(m_setup.clock->now().time_since_epoch().count()).date();
}

GroupId WriteControl::group() const
{
    return m_setup.groups.empty() ? GroupId{} : m_setup.groups[m_group].id;
}

void WriteControl::bindLibrary()
{
    LibraryPage* page = &m_room->library();
    connect(page, &LibraryPage::searchRequested, this, [this](const QString& query) {
        m_libraryState.search(query);
        refresh();
    });
    connect(page, &LibraryPage::rowRequested, this, [this](int row) {
        m_libraryState.chooseRow(row);
        refresh();
    });
    connect(page, &LibraryPage::renameRequested, this, [this] {
        m_libraryState.setRenaming(true);
        refresh();
    });
    connect(page, &LibraryPage::renameGivenUp, this, [this] {
        m_libraryState.setRenaming(false);
        refresh();
        m_room->library().begin();
    });
    connect(page, &LibraryPage::titleRequested, this, &WriteControl::keepTitle);
    connect(page, &LibraryPage::copyRequested, this, &WriteControl::copy);
    connect(page, &LibraryPage::putAsideRequested, this, &WriteControl::putAside);
    connect(page, &LibraryPage::putBackRequested, this, &WriteControl::putBack);
    connect(page, &LibraryPage::planRequested, this, &WriteControl::planPressed);
    connect(page, &LibraryPage::daysRequested, this, &WriteControl::toDays);
    connect(page, &LibraryPage::groupRequested, this, &WriteControl::nextGroup);
    connect(page, &LibraryPage::backRequested, this, [this] {
        if (!m_libraryState.forDay().isValid())
            return emit leaveRequested();
        m_libraryState.setForDay({});
        toDays();
    });
}

void WriteControl::bindDays()
{
    DaysPage* page = &m_room->days();
    connect(page, &DaysPage::rowRequested, this, [this](int row) {
        m_daysState.chooseRow(row);
        refresh();
    });
    connect(page, &DaysPage::turnRequested, this, [this](int weeks) {
        m_daysState.turn(weeks);
        refresh();
    });
    connect(page, &DaysPage::weekendsRequested, this, [this](bool shown) {
        m_daysState.setWeekends(shown);
        refresh();
    });
    connect(page, &DaysPage::planRequested, this, [this] {
        m_libraryState.setForDay(m_daysState.day());
        toLibrary();
    });
    connect(page, &DaysPage::placeRequested, this, &WriteControl::placePressed);
    connect(page, &DaysPage::moveRequested, this, [this](int days) {
        if (m_daysState.moveBy(days))
            saveDays();
    });
    connect(page, &DaysPage::takeOffRequested, this, [this] {
        if (m_daysState.takeOff())
            saveDays();
    });
    connect(page, &DaysPage::undoRequested, this, [this] {
        if (m_daysState.undo())
            saveDays();
    });
    connect(page, &DaysPage::lookRequested, this, [this] {
        m_libraryState.choosePath(m_library.pathOf(m_daysState.chosenKey()));
        toLibrary();
    });
    connect(page, &DaysPage::groupRequested, this, &WriteControl::nextGroup);
    connect(page, &DaysPage::backRequested, this, [this] {
        m_daysState.place({});
        toLibrary();
    });
}

void WriteControl::loadDays()
{
    DaysFile file(m_setup.folder, group());
    m_days = file.load();
    if (!file.damagedAside().isEmpty())
        sayInLibrary(damagedWords(file.damagedAside()), NoticeLine::Tone::heed);
    const QString name = m_setup.groups.size() > 1 ? m_setup.groups[m_group].name : QString();
    m_libraryState.setGroup(name);
    m_daysState.setGroup(name);
    m_daysState.setToday(today());
    m_daysState.begin();
}

void WriteControl::reloadDays()
{
    loadDays();
    refresh();
}

void WriteControl::nextGroup()
{
    if (m_setup.groups.empty())
        return;
    m_group = (m_group + 1) % m_setup.groups.size();
    loadDays();
    refresh();
}

void WriteControl::saveDays()
{
    if (!DaysFile(m_setup.folder, group()).save(m_days))
        sayInDays(tr("The days could not be written down. Is the disk full?"), NoticeLine::Tone::heed);
    else
        m_daysState.setNotice({});
    refresh();
}

void WriteControl::toLibrary()
{
    refresh();
    m_room->show(&m_room->library());
    m_room->library().begin();
}

void WriteControl::toDays()
{
    m_daysState.setNotice({});
    refresh();
    m_room->show(&m_room->days());
    m_room->days().begin();
}

void WriteControl::sayInLibrary(const QString& words, NoticeLine::Tone tone)
{
    m_libraryState.setNotice({words, tone});
}

void WriteControl::sayInDays(const QString& words, NoticeLine::Tone tone)
{
    m_daysState.setNotice({words, tone});
}

void WriteControl::keepTitle(const QString& title)
{
    const QString path = m_libraryState.chosen();
    const auto renamed = m_library.rename(path, title);
    if (renamed) {
        m_libraryState.choosePath(path);
        sayInLibrary({});
    } else {
        sayError(renamed.error());
    }
    refresh();
    if (renamed)
        m_room->library().begin();
}

void WriteControl::copy()
{
    const QString title = m_libraryState.look().title;
    if (const auto copied = m_library.copy(m_libraryState.chosen())) {
        sayInLibrary(tr("This is a copy of \u201C%1\u201D, with its pictures.").arg(title));
        m_libraryState.choosePath(*copied);
        m_libraryState.setRenaming(true);
    } else {
        sayError(copied.error());
    }
    refresh();
}

void WriteControl::putAside()
{
    const QString title = m_libraryState.look().title;
    const auto done = m_library.putAside(m_libraryState.chosen());
    if (done)
        sayInLibrary(tr("\u201C%1\u201D is put aside, into a folder of its own.").arg(title));
    else
        sayError(done.error());
    refresh();
    m_room->library().begin();
}

void WriteControl::putBack()
{
    if (const auto path = m_library.putBack()) {
        sayInLibrary(tr("It is back."));
        m_libraryState.choosePath(*path);
    } else {
        sayError(path.error());
    }
    refresh();
}

/// A class is chosen: for the day that was asked for, or for one that is asked for now.
void WriteControl::planPressed()
{
    const ClassEntry* entry = m_library.entryAt(m_libraryState.chosen());
    if (!entry || !m_libraryState.look().readable)
        return;
    const QDate day = m_libraryState.forDay();
    const DayClass what = dayClassOf(m_library, *entry, day);
    if (!day.isValid()) {
        m_daysState.place(what);
        return toDays();
    }
    m_libraryState.setForDay({});
    const bool planned = m_daysState.plan(what, day);
    if (planned)
        saveDays();
    toDays();
    if (!planned)
        sayInDays(tr("It is planned for this day already."));
    refresh();
}

void WriteControl::placePressed()
{
    const DayClass what = m_daysState.placing();
    const QDate day = m_daysState.day();
    m_daysState.place({});
    if (m_daysState.plan(what, day)) {
        saveDays();
        sayInDays(tr("Planned for %1.").arg(nearWords(day, today())));
    } else {
        sayInDays(tr("It is planned for this day already."));
    }
    refresh();
}

void WriteControl::refresh()
{
    m_libraryState.setToday(today());
    m_daysState.setToday(today());
    m_libraryState.refresh();
    m_daysState.refresh();
    if (!m_room)
        return;
    m_room->library().setState(m_libraryState.view());
    m_room->days().setState(m_daysState.view());
}

} // namespace vh::write
