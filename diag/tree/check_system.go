package tree

func (b *builder) checkSystem(n *systemNotes) {}
func (b *builder) sketch(n *systemNotes)      {}
func (b *builder) stateNeeds(s stateShape)    {}
func (b *builder) roundTests(n *systemNotes)  {}
func (b *builder) checkTrees(drafts []*draft) {}

type flow struct{}
