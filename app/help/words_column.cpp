#include "app/help/words_column.h"

#include "app/help/desk_view.h"
#include "app/widgets/big_button.h"
#include "app/widgets/plain_label.h"

#include <QVBoxLayout>

#include <array>

namespace vh::help
{

using look::Space;

namespace
{

constexpr std::chrono::milliseconds kReadsAfter{1'200};
constexpr std::chrono::minutes kReadsAtMost{1};

constexpr std::array kOnControls{DeskTask::toBoard,    DeskTask::setAside,   DeskTask::toLeader,
                                 DeskTask::clinician,  DeskTask::answerOne,  DeskTask::answerAll,
                                 DeskTask::quietShort, DeskTask::quietClass, DeskTask::out};

bool isForPeople(DeskTask task)
{
    return task == DeskTask::quietShort || task == DeskTask::quietClass || task == DeskTask::out;
}

} // namespace

WordsColumn::WordsColumn(QWidget* parent)
    : QWidget(parent), m_head(plainLabel(this, "second")),
      m_toRead(new WordList(WordList::Shows::oldest, tr("To read"),
                            tr("What people write comes here first. Nothing is to read now."), this))
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Space::small);
    column->addWidget(m_head);
    column->addWidget(m_toRead, 1);
    column->addWidget(makeTasks());
    m_toRead->setMinimumHeight(110);
    m_soon.setSingleShot(true);
    m_soon.setInterval(kReadsAfter);
    m_idle.setSingleShot(true);
    m_idle.setInterval(kReadsAtMost);
    connect(&m_soon, &QTimer::timeout, this, &WordsColumn::startReading);
    connect(&m_idle, &QTimer::timeout, this, &WordsColumn::stopReading);
    connect(m_toRead, &WordList::taskRequested, this, &WordsColumn::taskRequested);
    connect(m_toRead, &WordList::chosenChanged, this, &WordsColumn::readingChanged);
    connect(m_toRead, &WordList::focusChanged, this, [this](bool has) {
        if (has)
            readingChanged();
        else
            m_soon.stop(); // what was being read still is: somebody may be writing an answer to it
    });
}

QWidget* WordsColumn::makeTasks()
{
    auto* tasks = new QWidget(this);
    auto* grid = new QGridLayout(tasks);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setSpacing(Space::hair);
    int at = 0;
    for (const DeskTask task : kOnControls) {
        grid->addWidget(makeButton(task, tasks), at / 3, at % 3);
        ++at;
    }
    return tasks;
}

/// Driven by its key, so that the Tab key goes from list to list.
BigButton* WordsColumn::makeButton(DeskTask task, QWidget* parent)
{
    const auto rank = task == DeskTask::toBoard ? BigButton::Rank::main : BigButton::Rank::plain;
    auto* button = new BigButton(buttonWords(task), rank, BigButton::Size::desk, parent);
    button->setKeyHint(QString::fromLatin1(keyOf(task).hint));
    button->setFocusPolicy(Qt::NoFocus); // a press leaves the keys with the list
    connect(button, &BigButton::pressRequested, this, [this, task] { emit taskRequested(task); });
    m_buttons[task] = button;
    return button;
}

void WordsColumn::setTarget(Target target)
{
    for (const auto& [task, button] : m_buttons)
        button->setEnabled(target == Target::line || (target == Target::person && isForPeople(task)));
}

void WordsColumn::setState(const DeskView& view)
{
    m_head->setText(view.toReadWords);
    m_toRead->setWords(view.lists.toRead);
}

// --- "this is being read" ------------------------------------------------------------------------------------------

void WordsColumn::readingChanged()
{
    const WordRow* row = m_toRead->chosen();
    const quint64 now = row && !isSettled(*row) && m_toRead->hasFocus() ? row->item : 0;
    if (m_reads && m_reads != now)
        stopReading();
    if (now && m_reads != now)
        m_soon.start();
    else
        m_soon.stop();
    if (now && m_reads == now)
        m_idle.start();
}

void WordsColumn::startReading()
{
    const WordRow* row = m_toRead->chosen();
    if (!row || isSettled(*row) || !row->readBy.isEmpty())
        return;
    m_reads = row->item;
    m_idle.start();
    emit claimRequested(m_reads, true);
}

void WordsColumn::stopReading()
{
    m_idle.stop();
    if (const quint64 was = std::exchange(m_reads, 0))
        emit claimRequested(was, false);
}

} // namespace vh::help
