package source

// Nearest returns the known word that a mistyped word is most likely meant to be: one letter wrong, missing, doubled or swapped
// with its neighbour, or two in a word of eight letters or more. Of several as near it returns the first. It returns "" where
// nothing is near, or where the word is itself known.
func Nearest(word string, known []string) string {
	limit := 1
	if len([]rune(word)) >= 8 {
		limit = 2
	}
	best, bestDistance := "", limit+1
	for _, k := range known {
		d := Distance(word, k)
		if d == 0 {
			return ""
		}
		if d < bestDistance {
			best, bestDistance = k, d
		}
	}
	return best
}

// Distance counts the single letters to insert, delete, change or swap with a neighbour to turn one word into the other
// (optimal string alignment).
func Distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	before, last, now := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		now[0] = i
		for j := 1; j <= len(y); j++ {
			change := last[j-1]
			if x[i-1] != y[j-1] {
				change++
			}
			now[j] = min(change, last[j]+1, now[j-1]+1)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
		}
		before, last, now = last, now, before
	}
	return last[len(y)]
}
