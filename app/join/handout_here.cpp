#include "app/join/handout_here.h"

#include <QCoreApplication>
#include <QFileInfo>

namespace vh::join
{

namespace
{

QString tr(const char* source)
{
    return QCoreApplication::translate("vh::join::HandoutHere", source);
}

} // namespace

void HandoutHere::offeredIs(bool offered)
{
    m_state = offered ? State::offered : State::none;
    m_path.clear();
    m_words.clear();
}

HandoutHere::Press HandoutHere::press()
{
    switch (m_state) {
    case State::none:
    case State::coming:
        return Press::nothing;
    case State::saved:
        return Press::open;
    case State::offered:
    case State::failed:
        break;
    }
    m_state = State::coming;
    m_words = tr("The handout is on its way.");
    return Press::fetch;
}

void HandoutHere::savedAt(const QString& path)
{
    const QFileInfo file(path);
    m_state = State::saved;
    m_path = path;
    m_words = tr("The handout is in your folder %1: %2").arg(QFileInfo(file.path()).fileName(), file.fileName());
}

void HandoutHere::failedWith(const QString& why)
{
    m_state = State::failed;
    m_words = why.isEmpty() ? tr("The handout did not come. Please press once more.") : why;
}

void HandoutHere::cannotOpen()
{
    m_words = tr("This computer has no program that shows it. It stays in your folder %1.")
                  .arg(QFileInfo(QFileInfo(m_path).path()).fileName());
}

QString HandoutHere::button() const
{
    switch (m_state) {
    case State::none:
        return {};
    case State::saved:
        return tr("Open the handout");
    case State::offered:
    case State::coming:
    case State::failed:
        break;
    }
    return tr("Handout");
}

QString HandoutHere::words() const
{
    return m_words;
}

} // namespace vh::join
