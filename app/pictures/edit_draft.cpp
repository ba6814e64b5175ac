#include "app/pictures/edit_draft.h"

namespace vh::pictures
{

void EditDraft::change(const PictureEdit& edit, Step step)
{
    if (edit == now())
        return;
    if (step == Step::goesOn && m_goesOn)
        m_steps.back() = edit;
    else
        m_steps.push_back(edit);
    m_goesOn = step == Step::goesOn;
}

void EditDraft::undo()
{
    if (canUndo())
        m_steps.pop_back();
    m_goesOn = false;
}

} // namespace vh::pictures
