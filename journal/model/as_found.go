package model

// AsFound returns an entry that stands for the moment at which another had read what it found, before it took out, fitted or set anything. It is for asking what was in force then, and by which limits.
func (j *Journal) AsFound(e *Entry) *Entry {
	found := *e
	found.before, found.FittedThen = true, j.fittedBefore(e)
	return &found
}

// Replaced returns what an entry found that was no longer in force when it ended, because it set or fitted something there; none of a plan.
func (j *Journal) Replaced(e *Entry) []*Value {
	if e.Plan || len(e.Found) == 0 || len(e.Set)+len(e.Fitted)+len(e.Removed)+len(e.Degreeings) == 0 {
		return nil
	}
	var gone []*Value
	for _, v := range e.Values {
		if v.Origin == Found && v.Quantity.Unit != nil && j.At(v.Path, e) != v && j.at(v.Path, orderOf(e.Index, momentFound)) == v {
			gone = append(gone, v)
		}
	}
	return gone
}
