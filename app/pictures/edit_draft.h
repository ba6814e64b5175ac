#pragma once
// What a helper has changed about one picture and not sent yet, step by step, so that each can be undone. Value.
#include "app/pictures/edit.h"

#include <vector>

namespace vh::pictures
{

class EditDraft
{
public:
    EditDraft() = default;
    explicit EditDraft(QString caption) { m_steps.front().caption = std::move(caption); }

    /// How a step goes on from the one before: moving a frame or writing a caption is one step, however many presses.
    enum class Step { anew, goesOn };
    void change(const PictureEdit& edit, Step step);
    /// What comes next is a step of its own.
    void endStep() { m_goesOn = false; }
    void undo();
    /// The step is not over: see Step::goesOn.
    [[nodiscard]] bool goesOn() const { return m_goesOn; }

    [[nodiscard]] const PictureEdit& now() const { return m_steps.back(); }
    [[nodiscard]] bool canUndo() const { return m_steps.size() > 1; }
    /// There is something to be sent.
    [[nodiscard]] bool isChanged() const { return now() != m_steps.front(); }

private:
    std::vector<PictureEdit> m_steps{PictureEdit{}}; ///< the first: as it came
    bool m_goesOn = false;
};

} // namespace vh::pictures
