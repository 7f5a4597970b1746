package quantity

// Span is between what ends figures of one kind lie, all in one unit: usually, or at all.
type Span struct{ Low, High float64 }

// Holds reports whether a figure lies within the span, its ends included.
func (s Span) Holds(x float64) bool { return Compare(x, s.Low, 0) >= 0 && Compare(x, s.High, 0) <= 0 }
