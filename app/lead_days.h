#pragma once
// The leader's room and the group's days: she is offered today's class first, hears what was used lately, her handout
// names the week, and a class that ends is written down. Library, clock and control must outlive it. GUI thread.
#include "app/lead/lead_control.h"
#include "app/write/class_library.h"
#include "app/write/days_file.h"

namespace vh
{

class LeadDays : public QObject
{
    Q_OBJECT
public:
    struct Setup {
        const Clock* clock = nullptr;
        QString folder; ///< the profile
        GroupId group;
        write::ClassLibrary* library = nullptr;
        lead::LeadControl* lead = nullptr;
    };
    explicit LeadDays(const Setup& setup, QObject* parent = nullptr);

private:
    void offer();
    void keep(const lead::HeldNow& held);
    [[nodiscard]] QDate today() const;

    Setup m_setup;
    write::DaysFile m_file;
    write::ClassDays m_days;
};

} // namespace vh
