package model

import (
	"fmt"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// loggedFile is a file of a log, and what named it.
type loggedFile struct {
	log    *Log
	origin Origin
	name   parse.Text
	text   string
}

// notYetLogged returns the files of a log but for those that hold a ride which is in already: it is no second one, and says nothing of what was done since. One that is read for its mixture and,
// in the same entry, for other columns is one ride read twice. Texts are compared only with those of the same size.
func (r *logReader) notYetLogged(names []parse.Text) []parse.Text {
	var fresh []parse.Text
	for _, name := range names {
		csv := r.sources.Data[name.Text]
		if csv == nil || csv.File.Text == "" {
			fresh = append(fresh, name)
			continue
		}
		text := csv.File.Text
		was := r.firstLogged(text)
		if was == nil {
			r.loggedOnce[len(text)] = append(r.loggedOnce[len(text)], loggedFile{r.log, r.origin, name, text})
			fresh = append(fresh, name)
			continue
		}
		words, of := fmt.Sprintf("`%s` is named once already", name.Text), ""
		if name.Text != was.name.Text {
			words = fmt.Sprintf("`%s` holds the very same figures as `%s`", name.Text, was.name.Text)
		}
		if was.log.Entry != r.log.Entry {
			of = fmt.Sprintf(", in `%s`", was.log.Entry.Address())
		}
		r.report("same-log", source.Error, name.At, name.Text, words+of+": one ride doesn't count twice", "name the file of this ride; where none was logged, take it out", source.Remark{At: was.name.At, Message: "named here"})
	}
	return fresh
}

// firstLogged returns the file that holds a text and is in already; nil for none. What another table of the same entry reads other columns of doesn't count.
func (r *logReader) firstLogged(text string) *loggedFile {
	same := r.loggedOnce[len(text)]
	for i := range same {
		if was := &same[i]; (was.origin == r.origin || was.log.Entry != r.log.Entry) && was.text == text {
			return was
		}
	}
	return nil
}
