package parse

import (
	"strings"
	"testing"

	"example.org/locknut/journal/source"
)

const lashHead = "[set]\nlash.intake = \"0.10 mm\"\n"

// Whatever fence is right, what stands in it is read, and what stands below it is the body.
func TestHeadsThatAreRead(t *testing.T) {
	for _, c := range []struct{ name, text, body string }{
		{"back-quotes", "```toml\n" + lashHead + "```\nText.\n", "Text.\n"},
		{"tildes", "~~~toml\n" + lashHead + "~~~\nText.\n", "Text.\n"},
		{"capitals", "```TOML\n" + lashHead + "```\nText.\n", "Text.\n"},
		{"a blank before the word", "``` toml\n" + lashHead + "```\nText.\n", "Text.\n"},
		{"words behind the word", "```toml head of it\n" + lashHead + "```\nText.\n", "Text.\n"},
		{"longer fence", "`````toml\n" + lashHead + "`````\nText.\n", "Text.\n"},
		{"closed by a longer fence", "```toml\n" + lashHead + "``````\nText.\n", "Text.\n"},
		{"closed with blanks behind", "```toml  \n" + lashHead + "```  \nText.\n", "Text.\n"},
		{"indented by one", " ```toml\n" + lashHead + " ```\nText.\n", "Text.\n"},
		{"indented by three, closed unindented", "   ```toml\n" + lashHead + "```\nText.\n", "Text.\n"},
		{"blank lines before", "\n \t\n```toml\n" + lashHead + "```\nText.\n", "Text.\n"},
		{"nothing below", "```toml\n" + lashHead + "```", ""},
		{"a shorter fence inside a comment", "````toml\n# ```\n" + lashHead + "````\nText.\n", "Text.\n"},
		{"a fence of the other sort inside", "```toml\n# x\n" + lashHead + "x = \"\"\"a \\\n~~~\"\"\"\n```\nText.\n", "Text.\n"},
		{"a second block below", "```toml\n" + lashHead + "```\n```toml\nx = 1\n```\n", "```toml\nx = 1\n```\n"},
	} {
		for _, form := range []struct{ name, text string }{
			{"as typed", c.text},
			{"with a byte order mark", "\uFEFF" + c.text},
			{"with Windows line ends", strings.ReplaceAll(c.text, "\n", "\r\n")},
		} {
			t.Run(c.name+" "+form.name, func(t *testing.T) {
				d := decode(entryName, form.text)
				wantNothingFound(t, d)
				if got := shownReadings(d.readings); !strings.HasPrefix(got, "set lash.intake = 0.0001 length") {
					t.Errorf("read %q from\n%s", got, form.text)
				}
				if got := strings.ReplaceAll(form.text[d.entry.BodyFrom:], "\r\n", "\n"); got != c.body {
					t.Errorf("body is %q, want %q", got, c.body)
				}
			})
		}
	}
}

// A head that can't be used is a finding at its fence, never a quiet skip; and none of it is ever shown as body, since comments are
// private.
func TestHeadsThatAreWrong(t *testing.T) {
	for _, c := range []struct{ name, text, want, body string }{
		{"braces", "```{.toml}\n" + lashHead + "```\nText.\n", "1:1 front-matter-fence: ```{.toml}", "Text.\n"},
		{"braces behind a blank", "``` {.toml}\n" + lashHead + "```\nText.\n", "1:1 front-matter-fence: ``` {.toml}", "Text.\n"},
		{"braces with tildes", "~~~{.toml .head}\n" + lashHead + "~~~\nText.\n", "1:1 front-matter-fence: ~~~{.toml .head}", "Text.\n"},
		{"braces, unclosed", "```{.toml}\n" + lashHead + "Text.\n", "1:1 front-matter-fence: ```{.toml}", ""},
		{"unclosed", "```toml\n" + lashHead + "Text.\n", "1:1 front-matter-unclosed: ```toml", ""},
		{"closed by too short a fence", "````toml\n" + lashHead + "```\nText.\n", "1:1 front-matter-unclosed: ````toml", ""},
		{"closed by the other sort", "```toml\n" + lashHead + "~~~\nText.\n", "1:1 front-matter-unclosed: ```toml", ""},
		{"closed by an indented block", "```toml\n" + lashHead + "    ```\nText.\n", "1:1 front-matter-unclosed: ```toml", ""},
		{"closed by a fence with a word", "```toml\n" + lashHead + "``` end\nText.\n", "1:1 front-matter-unclosed: ```toml", ""},
		{"below a heading", "# Cam\n\n```toml\n# private\n" + lashHead + "```\nText.\n", "3:1 front-matter-late: ```toml", "Text.\n"},
		{"below another block", "```sh\nls\n```\n~~~TOML\n" + lashHead + "~~~\nText.\n", "4:1 front-matter-late: ~~~TOML", "Text.\n"},
		{"below an HTML comment", "<!-- mine -->\n```toml\n" + lashHead + "```\nText.\n", "2:1 front-matter-late: ```toml", "Text.\n"},
		{"late and unclosed", "Text.\n```toml\n" + lashHead, "2:1 front-matter-late: ```toml", ""},
		{"dashes", "---\n" + lashHead + "---\nText.\n", "1:1 foreign-fence: ---", "Text.\n"},
		{"pluses", "+++\n" + lashHead + "+++\nText.\n", "1:1 foreign-fence: +++", "Text.\n"},
		{"pluses, unclosed", "+++\n" + lashHead, "1:1 foreign-fence: +++", ""},
		{"dashes, indented", "  ---\n" + lashHead + "---\nText.\n", "1:3 foreign-fence: ---", "Text.\n"},
		{"dashes with blanks behind", "--- \n" + lashHead + "--- \nText.\n", "1:1 foreign-fence: ---", "Text.\n"},
		{"dashes below blank lines", "\n\n---\n" + lashHead + "---\nText.\n", "3:1 foreign-fence: ---", "Text.\n"},
	} {
		for _, form := range []struct{ name, text string }{
			{"as typed", c.text},
			{"with a byte order mark", "\uFEFF" + c.text},
			{"with Windows line ends", strings.ReplaceAll(c.text, "\n", "\r\n")},
		} {
			t.Run(c.name+" "+form.name, func(t *testing.T) {
				d := decode(entryName, form.text)
				if got := placed(d.findings); got != c.want || d.findings[0].Severity != source.Error {
					t.Fatalf("in\n%s\nfound\n%s\nwant the error\n%s", form.text, got, c.want)
				}
				if d.entry == nil || d.entry.Fields != nil {
					t.Fatal("want an entry without fields")
				}
				if got := strings.ReplaceAll(form.text[d.entry.BodyFrom:], "\r\n", "\n"); got != c.body {
					t.Errorf("body is %q, want %q", got, c.body)
				}
				if got := d.entry.Date.String(); got != "2026-04-18" {
					t.Errorf("dated %q, want the day in the file's name", got)
				}
			})
		}
	}
}

func TestFencesAreMendedByTheirFix(t *testing.T) {
	for _, c := range []struct{ name, text, mended string }{
		{"braces", "```{.toml}\n" + lashHead + "```\nText.\n", "```toml\n" + lashHead + "```\nText.\n"},
		{"braces, long fence", "~~~~ {.toml}\n" + lashHead + "~~~~\nText.\n", "~~~~toml\n" + lashHead + "~~~~\nText.\n"},
		{"dashes", "---\n" + lashHead + "---\nText.\n", "```toml\n" + lashHead + "```\nText.\n"},
		{"pluses", "+++\n" + lashHead + "+++\nText.\n", "```toml\n" + lashHead + "```\nText.\n"},
		{"dashes, indented", "  ---\n" + lashHead + "---\nText.\n", "  ```toml\n" + lashHead + "```\nText.\n"},
		{"dashes below a byte order mark", "\uFEFF---\n" + lashHead + "---\nText.\n", "\uFEFF```toml\n" + lashHead + "```\nText.\n"},
		{"pluses with Windows line ends", "+++\r\n[set]\r\nlash.intake = \"0.10 mm\"\r\n+++\r\nText.\r\n", "```toml\r\n[set]\r\nlash.intake = \"0.10 mm\"\r\n```\r\nText.\r\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := decode(entryName, c.text)
			if len(d.findings) != 1 || len(d.findings[0].Fixes) != 1 {
				t.Fatalf("want one finding with one fix, found\n%s", placed(d.findings))
			}
			mended := applied(t, d.file.Text, d.findings[0].Fixes[0])
			if mended != c.mended {
				t.Fatalf("mended to\n%q\nwant\n%q", mended, c.mended)
			}
			after := decode(entryName, mended)
			wantNothingFound(t, after)
			if got := shownReadings(after.readings); got != "set lash.intake = 0.0001 length" {
				t.Errorf("read %q", got)
			}
		})
	}
}

// A fix that would leave the entry as broken as before is not offered.
func TestAnUnclosedForeignFenceHasNoFix(t *testing.T) {
	if d := decode(entryName, "+++\n"+lashHead); len(d.findings) != 1 || len(d.findings[0].Fixes) != 0 {
		t.Errorf("found\n%s\nwant one finding without a fix", placed(d.findings))
	}
}

func TestFilesThatAreNoEntries(t *testing.T) {
	for _, c := range []struct{ name, text string }{
		{"plain Markdown", "# Notes\n\nNothing measured.\n"},
		{"empty", ""},
		{"blank lines", "\n\n"},
		{"a byte order mark", "\uFEFF"},
		{"a thematic break", "---\n\nText.\n"},
		{"a block of another language", "```sh\nls\n```\n"},
		{"a block of no language", "```\ntitle = \"x\"\n```\n"},
		{"indented too far", "    ```toml\n    x = 1\n    ```\n"},
		{"a fence inside a block", "````\n```toml\nx = 1\n```\n````\n"},
		{"too few back-quotes", "``toml\nx = 1\n``\n"},
		{"back-quotes in the word", "```toml```\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := decode(entryName, c.text)
			if got := found(d.findings); got != "skipped-file: (whole file)" || d.findings[0].Severity != source.Note || d.entry != nil {
				t.Errorf("in\n%s\nfound %s, want a note that the file is skipped", c.text, got)
			}
		})
	}
}

func TestFilesThatCannotBeRead(t *testing.T) {
	for _, c := range []struct{ name, file, text, want string }{
		{"an entry past 128 KiB", entryName, headed("") + strings.Repeat("x", 128<<10), "too-big: (whole file)"},
		{"a sheet past 4 MiB", "build.toml", "#" + strings.Repeat("x", 4<<20), "too-big: (whole file)"},
		{"Latin-1 in a sheet", "build.toml", "title = \"5 \xb5m\"", "not-utf8:  \xb5"},
		{"Latin-1 in a body", entryName, headed("") + "75 \xb0C", "not-utf8:  \xb0"},
		{"UTF-16", "limits.toml", "\xff\xfe[\x00x\x00]\x00", "not-utf8: \xff"},
		{"Latin-1 in a CSV file", "data/a.csv", "path,set\nx,5 \xb5m\n", "not-utf8:  \xb5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := decode(c.file, c.text)
			if got := found(d.findings); got != c.want {
				t.Errorf("found %q, want %q", got, c.want)
			}
		})
	}
	if d := decode(entryName, headed("")+strings.Repeat("x", 128<<10-len(headed("")))); len(d.findings) > 0 {
		t.Errorf("an entry of just 128 KiB gave\n%s", found(d.findings))
	}
}

// The sections of a day: the head's word counts, else the name's, and a mistyped one never makes a plan.
func TestDatesOfEntries(t *testing.T) {
	for _, c := range []struct {
		name, file, head, date, found string
		bad                           bool
	}{
		{"in the head", "entries/cam.md", "date = 2026-04-18", "2026-04-18", "", false},
		{"in the head with a time", "entries/cam.md", "date = 2026-04-18 19:30:05", "2026-04-18", "", false},
		{"in quotes", "entries/cam.md", `date = "2026-04-18T19:30"`, "2026-04-18", "", false},
		{"in the name", "entries/2026-04-18-cam.md", "", "2026-04-18", "", false},
		{"in the name, deeper", "entries/2026/2026-04-18.md", "", "2026-04-18", "", false},
		{"in the name, not its own", "entries/2026-04-18/cam.md", "", "", "", false},
		{"in the name, not at its start", "entries/cam-2026-04-18.md", "", "", "", false},
		{"in the name, with more digits", "entries/2026-04-180.md", "", "", "", false},
		{"in the name, no such day", "entries/2026-02-29-cam.md", "", "", "", false},
		{"leap day", "entries/cam.md", "date = 2028-02-29", "2028-02-29", "", false},
		{"nowhere", "entries/cam.md", "", "", "", false},
		{"head and name alike", "entries/2026-04-18-cam.md", "date = 2026-04-18", "2026-04-18", "", false},
		{"head and name differ", "entries/2026-04-18-cam.md", "date = 2026-04-19", "2026-04-19", "date-disagrees: 2026-04-19", false},
		{"with a zone", "entries/2026-04-18-cam.md", "date = 2026-04-19T10:00:00Z", "2026-04-18", "bad-date: 2026-04-19T10:00:00Z", true},
		{"with an offset", "entries/cam.md", "date = 2026-04-19T10:00:00+02:00", "", "bad-date: 2026-04-19T10:00:00+02:00", true},
		{"time alone", "entries/cam.md", "date = 19:30:00", "", "bad-date: 19:30:00", true},
		{"no such day in quotes", "entries/cam.md", `date = "2026-02-29"`, "", `bad-date: "2026-02-29"`, true},
		{"no such time in quotes", "entries/cam.md", `date = "2026-02-28 25:10"`, "", `bad-date: "2026-02-28 25:10"`, true},
		{"no such minute in quotes", "entries/cam.md", `date = "2026-02-28 20:61"`, "", `bad-date: "2026-02-28 20:61"`, true},
		{"with strokes in quotes", "entries/2026-04-18-cam.md", `date = "18/04/2026"`, "2026-04-18", `slash-date: "18/04/2026"`, true},
		{"with strokes", "entries/cam.md", "date = 18/04/2026", "", "slash-date: 18/04/2026", true},
		{"with dots", "entries/cam.md", "date = 18.4.2026", "", "slash-date: 18.4.2026", true},
		{"a number", "entries/cam.md", "date = 20260418", "", "wrong-kind: 20260418", true},
		{"empty", "entries/cam.md", `date = ""`, "", `bad-date: ""`, true},
		{"in a head that is broken elsewhere", "entries/cam.md", "date = 2026-04-18\nx = ", "", "bad-toml: x", true},
		{"none in a head that is broken", "entries/cam.md", "x = ", "", "bad-toml: x", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := decode(c.file, headed(c.head))
			wantFound(t, d, c.found)
			if got := d.entry.Date.String(); got != c.date || d.entry.DateBad != c.bad {
				t.Errorf("%s\ndated %q, bad %v; want %q, %v", c.head, got, d.entry.DateBad, c.date, c.bad)
			}
		})
	}
}

func TestDaysThatReadTwoWays(t *testing.T) {
	for _, c := range []struct{ typed, offers, message string }{
		{`"04/05/2026"`, "2026-05-04 2026-04-05", "can be read as two days"},
		{`04/05/2026`, "2026-05-04 2026-04-05", "can be read as two days"},
		{`"18/04/2026"`, "2026-04-18", "is not written as year-month-day"},
		{`18/04/2026`, "2026-04-18", "is not written as year-month-day"},
		{`"04.18.2026"`, "2026-04-18", "is not written as year-month-day"},
		{`"2026/4/18"`, "2026-04-18", "is not written as year-month-day"},
		{`"05/05/2026"`, "2026-05-05", "is not written as year-month-day"},
		{`"18/18/2026"`, "", "is no day that can be told"},
		{`"4/5/26"`, "", "is no day that can be told"},
	} {
		d := decodeHead("date = " + c.typed)
		if len(d.findings) != 1 || d.findings[0].Rule != "slash-date" {
			t.Errorf("%s: found %s, want a slash-date", c.typed, found(d.findings))
			continue
		}
		var offers []string
		for _, fix := range d.findings[0].Fixes {
			offers = append(offers, fix.Edits[0].Text)
		}
		if got := strings.Join(offers, " "); got != c.offers {
			t.Errorf("%s: offers %q, want %q", c.typed, got, c.offers)
		}
		if !strings.Contains(d.findings[0].Message, c.message) {
			t.Errorf("%s: says %q, want it to say %q", c.typed, d.findings[0].Message, c.message)
		}
	}
}

func TestParseDate(t *testing.T) {
	for text, want := range map[string]string{"2026-04-18": "2026-04-18", " 2026-04-18 ": "2026-04-18", "2026-02-30": "", "2026-4-1": "", "x": "", "2026-04-18Z": ""} {
		date, ok := ParseDate(text)
		if ok != (want != "") || ok && date.String() != want {
			t.Errorf("%q is %q, %v; want %q", text, date, ok, want)
		}
	}
}

// A day that there is not, or that isn't written as one, costs no more than itself: the rest of the head is read, and the day in the file's name stands in.
func TestADayThatIsNone(t *testing.T) {
	for _, c := range []struct{ head, want string }{
		{"date = 2026-02-30\n[set]\nlash = \"0.1 mm\"", "bad-date: 2026-02-30"},
		{"date = 2026-13-07 # so\n[set]\nlash = \"0.1 mm\"", "bad-date: 2026-13-07"},
		{"date = 30.2.2026\n[set]\nlash = \"0.1 mm\"", "slash-date: 30.2.2026"},
		{"date = 01/03/2026\n[set]\nlash = \"0.1 mm\"", "slash-date: 01/03/2026"},
		{"date = \"2026-02-30\"\n[set]\nlash = \"0.1 mm\"", "bad-date: \"2026-02-30\""},
		{"title = 'a\\b'\n[[later]]\ndo = \"oil\"\non = 2026-04-31\n[set]\nlash = \"0.1 mm\"", "bad-date: 2026-04-31"},
	} {
		d := decodeHead(c.head)
		wantFound(t, d, c.want)
		if got := shownReadings(d.readings); got != "set lash = 0.0001 length" {
			t.Errorf("%q: read %q", c.head, got)
		}
		if strings.HasPrefix(c.head, "date") && (!d.entry.DateBad || d.entry.Date.String() != "2026-04-18" || !strings.HasSuffix(d.findings[0].Do, "; until then the day in the file's name counts, 2026-04-18")) {
			t.Errorf("%q: %s stands in, and it is said %q", c.head, d.entry.Date, d.findings[0].Do)
		}
	}
	sheet := decode("tools.toml", "[wrench]\ncalibrated = [2026-01-01, 2026-02-30, 2026-03-01]\nlength = \"262 mm\"\n")
	wantFound(t, sheet, "bad-date: 2026-02-30")
	if len(sheet.fields.Get("calibrated").Dates) != 2 || sheet.fields.Value("length") == nil || !sheet.fields.IsBad("calibrated") {
		t.Errorf("read %+v", sheet.fields)
	}
}

// Of a head that is broken it is known what was measured, as far as that can be seen, and nothing else.
func TestABrokenHeadMeasuredSomething(t *testing.T) {
	d := decodeHead("title = Cam\n[found]\nlash.intake = \"0.1 mm\"\n[set]\nbore = \"\"\"\nmm x\nleft 53\n\"\"\"\ncam.inlet = { opens = \"5°\" }")
	wantFound(t, d, "unquoted-value: Cam")
	if got := shownReadings(d.readings); d.entry.Fields != nil || got != "found lash.intake unread\nset bore.left.x unread\nset cam.intake.opens unread" {
		t.Errorf("read %q", got)
	}
}
