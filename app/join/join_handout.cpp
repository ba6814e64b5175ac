// The handout at home: fetched when the person presses, saved where they look for what they fetched, opened when they
// press again.
#include "app/handout/paper_files.h"
#include "app/join/join_control.h"

namespace vh::join
{

void JoinControl::bindHandout(const JoinRoom& room)
{
    connect(&room, &JoinRoom::handoutRequested, this, [this] { carryOut(m_model.pressHandout()); });
    connect(&m_handout, &link::HandoutFetch::offeredChanged, this, [this] {
        m_model.handout().offeredIs(m_handout.offered().has_value());
        render();
    });
    connect(&m_handout, &link::HandoutFetch::fetched, this, &JoinControl::saveHandout);
    connect(&m_handout, &link::HandoutFetch::failed, this, [this] {
        if (m_handout.offered())
            m_model.handout().failedWith({});
        render();
    });
}

void JoinControl::saveHandout(const QByteArray& pdf)
{
    const QString folder = m_setup.handoutFolder.isEmpty() ? handout::downloadFolder() : m_setup.handoutFolder;
    const QString title = QString::fromStdString(m_handout.offered()->title);
    const auto saved = handout::savePaper(folder, handout::paperName(title, {}, tr("handout")), pdf);
    if (saved)
        m_model.handout().savedAt(*saved);
    else
        m_model.handout().failedWith(QString::fromStdString(saved.error().message));
    render();
}

void JoinControl::openHandout()
{
    if (!handout::showFile(m_model.handout().path()))
        m_model.handout().cannotOpen();
}

} // namespace vh::join
