// WriteControl's part for one class: a new one, writing, rehearsing and printing the chosen one.
#include "app/write/class_offers.h"
#include "app/write/week_plan.h"
#include "app/write/write_control.h"

#include <QLocale>

#include <algorithm>

namespace vh::write
{

namespace
{
constexpr std::size_t kShapesOfHers = 3; // of her own last classes
constexpr int kUsualMinutes = 20;
} // namespace

Writing::Setup WriteControl::writingSetup()
{
    Writing::Setup setup;
    setup.room = m_room;
    setup.library = m_setup.library;
    setup.pace = m_setup.pace;
    setup.clock = m_setup.clock;
    setup.ears = m_setup.ears;
    setup.microphone = m_setup.microphone;
    setup.papersFolder = m_setup.papersFolder;
    setup.saidLately = [this](const QString& path) { return m_days.saidLately(today(), m_library.keyOf(path)); };
    setup.papers = [this](const QString& path) { return papersOptions(path); };
    return setup;
}

void WriteControl::bindWriting()
{
    LibraryPage* page = &m_room->library();
    connect(page, &LibraryPage::newRequested, this, &WriteControl::newClass);
    connect(page, &LibraryPage::writeRequested, this, &WriteControl::writeChosen);
    connect(page, &LibraryPage::rehearseRequested, this, [this] { m_writing->rehearse(m_libraryState.chosen()); });
    connect(page, &LibraryPage::handoutRequested, this, [this] {
        sayInLibrary(tr("The handout is being made\u2026"));
        refresh();
        m_writing->print(m_libraryState.chosen());
    });
    connect(m_writing, &Writing::printed, this, [this](const QString& words) {
        sayInLibrary(words);
        refresh();
    });
    connect(m_writing, &Writing::saved, this, &WriteControl::savedClass);
    connect(m_writing, &Writing::leaveRequested, this, [this](const QString& path) {
        m_newFor = {};
        if (!path.isEmpty())
            m_libraryState.choosePath(path);
        toLibrary();
    });
}

void WriteControl::newClass()
{
    m_newFor = m_libraryState.forDay();
    m_libraryState.setForDay({});
    sayInLibrary({});
    m_writing->beginNew(startState());
}

/// Her last classes lend their shapes, and their usual length.
StartPage::State WriteControl::startState() const
{
    StartPage::State state;
    state.day = static_cast<std::uint64_t>((m_newFor.isValid() ? m_newFor : today()).toJulianDay());
    state.minutes = kUsualMinutes;
    if (m_setup.pace)
        state.pace = m_setup.pace->pace();
    std::vector<const ClassEntry*> own;
    for (const ClassEntry& entry : m_library.entries())
        if (!entry.bundled && !entry.unread && !entry.unfinished && entry.mistakes.empty())
            own.push_back(&entry);
    std::sort(own.begin(), own.end(),
              [](const ClassEntry* one, const ClassEntry* other) { return one->modified > other->modified; });
    for (const ClassEntry* entry : own)
        if (state.earlier.size() < kShapesOfHers)
            if (auto script = readScriptFile(entry->path))
                state.earlier.push_back(std::move(*script));
    if (!state.earlier.empty())
        state.minutes = state.earlier.front().plannedMinutes;
    return state;
}

void WriteControl::writeChosen()
{
    sayInLibrary({});
    if (const auto path = m_library.toWrite(m_libraryState.chosen())) {
        m_libraryState.choosePath(*path);
        m_writing->edit(*path);
    } else {
        sayError(path.error());
        refresh();
    }
}

/// A class that was begun for a day is planned for it once it is one.
void WriteControl::savedClass(const QString& path)
{
    const ClassEntry* entry = m_library.entryAt(path);
    if (!entry || !m_newFor.isValid())
        return;
    if (m_daysState.plan(dayClassOf(m_library, *entry, m_newFor), m_newFor))
        saveDays();
    m_newFor = {};
}

handout::HandoutOptions WriteControl::papersOptions(const QString& path) const
{
    handout::HandoutOptions options;
    options.paper = handout::paperOf(QLocale::system());
    if (!m_setup.groups.empty())
        options.group = m_setup.groups[m_group].name;
    options.date = m_days.nextPlanned(m_library.keyOf(path), today());
    if (options.date.isValid())
        options.week = weekOf(m_days, options.date);
    return options;
}

} // namespace vh::write
