#pragma once
// The library and the days in each of their states, with the classes that ship and an invented group: for tests and
// pictures. The day is Tuesday 10 March 2026.
#include "app/write/write_control.h"

#include <QTemporaryDir>

#include <memory>

namespace vh::write::testing
{

inline const QDate kSceneDay(2026, 3, 10);

/// A room with its folders, settled.
class WriteHere
{
public:
    explicit WriteHere(std::vector<WriteGroup> groups = {});
    [[nodiscard]] bool isReady() const { return m_ready; }
    [[nodiscard]] WriteRoom& room() { return m_control->room(); }
    [[nodiscard]] WriteControl& control() { return *m_control; }
    [[nodiscard]] ClassLibrary& library() { return *m_library; }
    [[nodiscard]] QString own(const QString& name) const;
    [[nodiscard]] const QTemporaryDir& folder() const { return m_folder; }

private:
    void fill(const std::vector<WriteGroup>& groups);

    QTemporaryDir m_folder;
    HandClock m_clock;
    std::unique_ptr<ClassLibrary> m_library;
    std::unique_ptr<WriteControl> m_control;
    bool m_ready = false;
};

} // namespace vh::write::testing
