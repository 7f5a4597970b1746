package parse

// isPlain reports whether a text without a break holds nothing that two readers of TOML could take for different things: keys without
// quotes, tables under headers or dots, texts on one line without escapes, short decimal numbers, true and false, and lists of these. Of
// such a text the located nodes hold the values already. A test holds that against the decoder, which is asked about all others.
func (n *node) isPlain() bool {
	switch n.kind {
	case nodeTable:
		for _, key := range n.keys {
			if key.keyAt.End-key.keyAt.Start != len(key.key) || !key.isPlain() {
				return false
			}
		}
		return true
	case nodeString:
		return len(n.runs) == 0
	case nodeInteger, nodeFloat:
		return isShortNumber(n.text)
	case nodeArray:
		for _, item := range n.items {
			if !item.isPlain() {
				return false
			}
		}
		return true
	}
	return n.kind == nodeBool
}

// isShortNumber reports whether a number is a few digits, at most with a point between them, and does not begin with a needless 0.
func isShortNumber(text string) bool {
	if len(text) > 15 || len(text) > 1 && text[0] == '0' && text[1] != '.' {
		return false
	}
	points := 0
	for i := range len(text) {
		switch {
		case text[i] == '.' && i > 0 && i < len(text)-1:
			points++
		case text[i] < '0' || text[i] > '9':
			return false
		}
	}
	return points < 2
}
