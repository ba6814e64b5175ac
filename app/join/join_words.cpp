// What the participant's room does with words: what is written goes up once, whatever the line does; what becomes of it
// comes back.
#include "app/join/join_control.h"

namespace vh::join
{

void JoinControl::bindBoard(const JoinRoom& room)
{
    connect(&room, &JoinRoom::writeRequested, this, [this] {
        m_model.pressWrite();
        render();
    });
    connect(&room, &JoinRoom::draftChanged, this, [this](const QString& words) {
        m_model.write(words);
        render();
    });
    connect(&room, &JoinRoom::sendRequested, this, [this] { carryOut(m_model.send()); });
    connect(&room, &JoinRoom::lineRequested, this, &JoinControl::pressLine);
    connect(&room, &JoinRoom::peopleRequested, this, [this] { carryOut(m_model.pressPeople()); });
    connect(&room, &JoinRoom::putAwayRequested, this,
            [this](bool writeBack) { carryOut(m_model.putAwayAnswer(writeBack)); });
}

void JoinControl::carryOutWords(const Wish& wish)
{
    switch (wish.kind) {
    case Wish::Kind::write: // the line keeps it, under one id, until it is answered
        m_asked[m_line.ask(wire::Write{{}, wish.value})] = {wish.kind, wish.line};
        break;
    case Wish::Kind::takeBackLine: // refused only where it is not there any more
        m_line.ask(wire::TakeBackOwn{{}, wish.line});
        break;
    case Wish::Kind::askPeople:
        m_line.tell(wire::PeopleAsk{});
        break;
    case Wish::Kind::keepPutAway:
        if (const auto& welcome = m_line.welcome())
            m_answersRead.keep(welcome->person, wish.line);
        break;
    default:
        break;
    }
}

} // namespace vh::join
