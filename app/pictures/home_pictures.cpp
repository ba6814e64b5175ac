#include "app/pictures/home_pictures.h"

namespace vh::pictures
{

HomePictures::HomePictures(link::Line& line, QObject* parent)
    : QObject(parent), m_shelf(line), m_sender(line), m_flow(m_sender), m_window(line, m_shelf)
{
    connect(&m_flow, &SendFlow::changed, this, &HomePictures::changed);
    connect(&m_flow, &SendFlow::agreed, this, [this] { m_agreed = true; });
    connect(&m_sender, &PictureSender::changed, this, &HomePictures::changed);
    connect(&m_shelf, &PictureShelf::arrived, this, &HomePictures::changed);
    connect(&m_shelf, &PictureShelf::withheld, this, &HomePictures::changed);
    connect(&m_window, &WindowNow::changed, this, &HomePictures::changed);
}

HomePictures::Page HomePictures::page() const
{
    return m_flow.isOpen() ? Page::send : m_looked ? Page::large : Page::none;
}

void HomePictures::paste(const QMimeData* copied)
{
    m_flow.take(sourceIn(copied));
}

void HomePictures::look(const Looked& at)
{
    m_looked = at;
    emit changed();
}

void HomePictures::closeLarge()
{
    m_looked.reset();
    emit changed();
}

void HomePictures::back()
{
    m_flow.isOpen() ? m_flow.back() : closeLarge();
}

LargeView HomePictures::largeView() const
{
    LargeView view;
    if (!m_looked)
        return view;
    view.picture = m_shelf.picture(m_looked->hash);
    view.words = m_shelf.isWithheld(m_looked->hash) ? tr("This picture could not be fetched.")
                                                    : tr("The picture is on its way.");
    view.name = m_looked->name;
    view.caption = m_looked->caption;
    view.state = m_looked->state;
    view.own = m_looked->own;
    view.canTakeBack = m_looked->mayTakeBack;
    return view;
}

} // namespace vh::pictures
