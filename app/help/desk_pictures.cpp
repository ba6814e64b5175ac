// DeskControl's part for pictures: small in the lists, one of them large; decided on, and taken back, as lines are.
#include "app/help/desk_control.h"

#include "app/help/word_list.h"

namespace vh::help
{

void DeskControl::bindPictures()
{
    m_pictures.bind(m_room->picture());
    connect(m_room, &DeskRoom::pictureOpenRequested, &m_pictures, &pictures::PictureDesk::openItem);
    connect(&m_pictures, &pictures::PictureDesk::decisionRequested, this,
            [this](quint64 item, wire::Decision decision) {
                decide(item, decision);
                if (!m_room)
                    return;
                WordList& list = m_room->toRead();
                if (const WordRow* row = list.chosen(); row && row->item == item)
                    list.goOn();
            });
    connect(&m_pictures, &pictures::PictureDesk::changed, this, [this] {
        showSmallPictures();
        beat();
    });
}

void DeskControl::showSmallPictures()
{
    for (const auto& [item, picture] : m_pictures.smallOnes())
        m_model.words().setPicture(item, picture);
}

} // namespace vh::help
