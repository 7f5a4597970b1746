package model

import (
	"fmt"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// pulledFile is a file of a pull, and who named it.
type pulledFile struct {
	session *Pulls
	name    parse.Text
}

// notYetPulled returns the files of a session but for those that hold the figures of a pull which is in already: one measurement that counts twice makes the scatter look smaller than it is. Of those of the
// session itself each is told, of those of sessions before it the first.
func (l *linker) notYetPulled(p *Pulls, names []parse.Text) []parse.Text {
	var fresh []parse.Text
	var elsewhere []pulledFile
	var first parse.Text // of this session, of those that stand in another
	for _, name := range names {
		csv := l.sources.Data[name.Text]
		if csv == nil || csv.File.Text == "" {
			fresh = append(fresh, name)
			continue
		}
		was, again := l.pulledOnce[csv.File.Text]
		switch {
		case !again:
			l.pulledOnce[csv.File.Text] = pulledFile{p, name}
			fresh = append(fresh, name)
		case was.session == p:
			l.report("same-pull", source.Error, name.At, name.Text, sameWords(name, was.name)+": one pull doesn't count twice", "name the file of each pull once; a pull that wasn't repeated stands alone", source.Remark{At: was.name.At, Message: "named here"})
		default:
			if len(elsewhere) == 0 {
				first = name
			}
			elsewhere = append(elsewhere, was)
		}
	}
	if len(elsewhere) > 0 {
		was, more := elsewhere[0], ""
		if n := len(elsewhere) - 1; n > 0 {
			more = fmt.Sprintf(", and %d more here are so too", n)
		}
		l.report("same-pull", source.Error, first.At, first.Text, fmt.Sprintf("%s, of `%s`%s: one pull is not of two sessions", sameWords(first, was.name), was.session.Entry.Address(), more), "name the files of this session; where nothing was pulled anew, take it out",
			source.Remark{At: was.name.At, Message: "named here"})
	}
	return fresh
}

// sameWords says that a file is one that was named before, or holds the same.
func sameWords(name, was parse.Text) string {
	if name.Text == was.Text {
		return fmt.Sprintf("`%s` is the file of another pull", name.Text)
	}
	return fmt.Sprintf("`%s` holds the very same figures as `%s`", name.Text, was.Text)
}

// screenBesideData reports peaks of a screen beside files of pulls, which have their own.
func (l *linker) screenBesideData(table *parse.Fields) {
	for _, key := range []string{"peak", "torque"} {
		if f := table.Get(key); f != nil {
			l.report("screen-beside-data", source.Warning, f.At, key, fmt.Sprintf("`%s` stands beside `data`, and the files tell it: it is not counted", key), "take it out; what a screen shows of pulls without a file belongs into a `[[pulls]]` of its own", source.Remark{At: table.Get("data").At, Message: "the files"})
		}
	}
}
