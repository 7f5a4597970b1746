package parse

import (
	"encoding/csv"
	"fmt"
	"strings"
	"testing"
)

// shownCSV prints a CSV file: its heads with their units, then its rows, cells parted by `|`.
func shownCSV(c *CSV) string {
	var lines []string
	line := ""
	for i, h := range c.Heads {
		line += strings.Repeat("|", min(i, 1)) + h.Name
		if h.Unit != "" {
			line += " in " + h.Unit
		}
	}
	lines = append(lines, line)
	for _, row := range c.Rows() {
		var cells []string
		for _, cell := range row {
			cells = append(cells, strings.ReplaceAll(cell.Text, "\n", "⏎"))
		}
		lines = append(lines, strings.Join(cells, "|"))
	}
	return strings.Join(lines, "\n")
}

func TestCSVFilesAsPeopleHaveThem(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"comma", "rpm,power\n5000,12.3\n", "rpm|power\n5000|12.3"},
		{"semicolon", "rpm;power\n5000;12,3\n", "rpm|power\n5000|12,3"},
		{"tab", "rpm\tpower\n5000\t12,3\n", "rpm|power\n5000|12,3"},
		{"tab before semicolon before comma", "a;b,c\td\n1;2,3\t4\n", "a;b,c|d\n1;2,3|4"},
		{"semicolon before comma", "a,b;c\n1,2;3\n", "a,b|c\n1,2|3"},
		{"a semicolon in quotes", "\"power; corrected\",rpm\n12.3,5000\n", "power; corrected|rpm\n12.3|5000"},
		{"a line end in the quotes of a head", "\"power\n(hp)\";rpm\n12,3;5000\n", "power in hp|rpm\n12,3|5000"},
		{"one column", "rpm\n5000\n\n6000\n", "rpm\n5000\n6000"},
		{"units in square brackets", "rpm,P [hp],T [N·m]\n5000,12.3,17\n", "rpm|P in hp|T in N·m\n5000|12.3|17"},
		{"units in round brackets", "rpm,P (hp)\n5000,12.3\n", "rpm|P in hp\n5000|12.3"},
		{"a bracket that is no unit's", "rpm,P (hp) raw\n5000,12.3\n", "rpm|P (hp) raw\n5000|12.3"},
		{"units in the next row", "Speed,Power,Note\nrpm,kW,-\n5000,12.3,x\n", "Speed in rpm|Power in kW|Note\n5000|12.3|x"},
		{"units in brackets in the next row", "Speed,Power\n[rpm],(kW)\n5000,12.3\n", "Speed in rpm|Power in kW\n5000|12.3"},
		{"units in part of the next row", "Speed,Power\nrpm,\n5000,12.3\n", "Speed in rpm|Power\n5000|12.3"},
		{"no units in the third row", "Speed\n5000\nrpm\n", "Speed\n5000\nrpm"},
		{"dashes are no row of units", "path,set\n-,-\n", "path|set\n-|-"},
		{"quotes", "\"rpm\",\"P [hp]\"\n\"5000\",\"12.3\"\n", "rpm|P in hp\n5000|12.3"},
		{"a separator in quotes", "path,set\nx,\"0.9 L, black\"\n", "path|set\nx|0.9 L, black"},
		{"a quote in quotes", "path,set\nx,\"1/4\"\" pipe\"\n", "path|set\nx|1/4\" pipe"},
		{"a line end in quotes", "path,note\nx,\"one\ntwo\"\ny,three\n", "path|note\nx|one⏎two\ny|three"},
		{"empty quotes", "a,b\n\"\",2\n", "a|b\n|2"},
		{"a quote inside a cell", "a,b\n3\",2\n", "a|b\n3\"|2"},
		{"Windows line ends", "a,b\r\n1,2\r\n", "a|b\n1|2"},
		{"Windows line ends in quotes", "a,b\r\n\"x\",\"2\"\r\n", "a|b\nx|2"},
		{"old line ends", "a,b\r1,2\r\"3\",4\r", "a|b\n1|2\n3|4"},
		{"no line end at the end", "a,b\n1,2", "a|b\n1|2"},
		{"an empty cell at the end", "a,b\n1,", "a|b\n1|"},
		{"byte order mark", "\uFEFFa,b\n1,2\n", "a|b\n1|2"},
		{"blanks round the cells", "a , b\n 1 ,\t2 \n", "a|b\n1|2"},
		{"empty rows", "a,b\n\n1,2\n,\n , \n,,,\n", "a|b\n1|2"},
		{"heads alone", "a,b\n", "a|b"},
		{"columns without a head", "a,,\n1,2,3\n", "a||\n1|2|3"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, findings := DecodeCSV(decode("data/x.csv", c.text).file)
			if len(findings) > 0 {
				t.Fatalf("in\n%s\nfound\n%s", c.text, placed(findings))
			}
			if got := shownCSV(d); got != c.want {
				t.Errorf("in\n%s\ndecoded\n%s\nwant\n%s", c.text, got, c.want)
			}
		})
	}
}

// The standard library's reader of RFC 4180 is the yardstick where both are strict: every cell as it stands, in quotes.
func TestCSVReadsLikeTheStandardReader(t *testing.T) {
	for _, text := range []string{
		"a,b,c\n1,2,3\n4,5,6\n",
		"\"a\",\"b\"\n\"1\"\"2\",\"3,4\"\n",
		"a,b\r\n\"x\ny\",\"z\"\r\n",
		"a,b\n\"\"\"q\"\"\",\"\"\n1,2\n",
		"a,b\n\"ä µ °\",\"–\"\n",
	} {
		rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		c, findings := DecodeCSV(decode("data/x.csv", text).file)
		if len(findings) > 0 {
			t.Fatalf("in\n%s\nfound\n%s", text, placed(findings))
		}
		got := [][]string{{}}
		for _, h := range c.Heads {
			got[0] = append(got[0], h.Cell.Text)
		}
		for _, row := range c.Rows() {
			var cells []string
			for _, cell := range row {
				cells = append(cells, cell.Text)
			}
			got = append(got, cells)
		}
		if fmt.Sprint(got) != fmt.Sprint(rows) {
			t.Errorf("in %q\ndecoded %q\nwant    %q", text, got, rows)
		}
	}
}

func TestCSVFilesThatAreWrong(t *testing.T) {
	for _, c := range []struct{ name, text, want, rows string }{
		{"empty", "", "0:0 bad-csv: (whole file)", ""},
		{"blank", " \n\n", "0:0 bad-csv: (whole file)", ""},
		{"a row too short", "a,b\n1\n2,3\n", "2:1 bad-csv: 1", "a|b\n2|3"},
		{"a row too long", "a,b\n1,2,3\n4,5\n", "2:1 bad-csv: 1,2,3", "a|b\n4|5"},
		{"a decimal comma between commas", "a,b\n1,2,5\n", "2:1 bad-csv: 1,2,5", "a|b"},
		{"a quote never closed", "a,b\n1,\"2\n3,4\n", "2:3 bad-csv: \"", "a|b\n1|2⏎3,4⏎"},
		{"text behind a quote", "a,b\n\"1\"x,2\n", "2:4 bad-csv: x", "a|b\n1|2"},
		{"a head twice", "rpm,RPM\n1,2\n", "1:5 bad-csv: RPM", "rpm|RPM\n1|2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			file := decode("data/x.csv", c.text).file
			d, findings := DecodeCSV(file)
			if got := placed(findings); got != c.want {
				t.Errorf("in\n%s\nfound\n%s\nwant\n%s", c.text, got, c.want)
			}
			rows := ""
			if d != nil {
				rows = shownCSV(d)
			}
			if rows != c.rows {
				t.Errorf("in\n%s\ndecoded\n%s\nwant\n%s", c.text, rows, c.rows)
			}
		})
	}
}

func TestReadingsFiles(t *testing.T) {
	for _, c := range []struct{ name, text, want, found string }{
		{"set", "path,set\nbore.1.x,53.01 mm\nbore.1.y,53.02 mm\n", "set bore.1.x = 0.05301 length\nset bore.1.y = 0.05302 length", ""},
		{"found and set", "path,found,set\nlash.Inlet.left,0.13 mm,0.10 mm\n", "found lash.intake.left = 0.00013 length\nset lash.intake.left = 0.0001 length", ""},
		{"the unit in the head", "path,found [mm],set (in)\nx,0.13,1\n", "found x = 0.00013 length\nset x = 0.0254 length", ""},
		{"the unit in the next row", "path;set\n-;mm\nx;0,13\n", "set x = 0.00013 length", ""},
		{"a cell's own unit counts", "path,set [mm]\nx,1 in\n", "set x = 0.0254 length", ""},
		{"not measured", "path,found,set\nx,,-\ny,1 mm,\n", "set x = blank\nfound y = 0.001 length", ""},
		{"words, brackets and repeats of words", "path,set\nx,aligned\ny,0.10..0.13 mm\nz,\"0.9 L, black\"\n", "set x = \"aligned\"\nset y = 0.0001..0.00013 length\nset z = 0.0009 volume \"black\"", ""},
		{"details", "path,set,with,engine-temp [°C],note\nx,1 mm,Click_Wrench,75,\"slow, twice\"\ny,1 mm,,,\n",
			"set x = 0.001 length {note \"slow, twice\", with click-wrench, engine-temp 348.15 temperature}\nset y = 0.001 length", ""},
		{"heads in capitals and underscores", "Path,SET,Engine_Temp\nx,1 mm,20 °C\n", "set x = 0.001 length {engine-temp 293.15 temperature}", ""},
		{"decimal commas between semicolons", "path;set\nx;0,08 mm\ny;1,5..2,5 mm\n", "set x = 8e-05 length\nset y = 0.0015..0.0025 length", ""},
		{"decimal points between semicolons", "path;set\nx;0.08 mm\n", "set x = 8e-05 length", ""},

		{"no path", "part,set\nx,1 mm\n", "", "bad-csv: part\nbad-csv: part,set"},
		{"neither found nor set", "path,value\nx,1 mm\n", "", "bad-csv: path,value\nbad-csv: value"},
		{"a column too many", "path,set,by\nx,1 mm,me\n", "set x = 0.001 length", "bad-csv: by"},
		{"a column in two units", "path,set [mm],set [in]\nx,1,2\n", "", "bad-csv: set [in]"},
		{"a column in two spellings", "path,set,engine-temp,engine_temp\nx,1 mm,2 °C,3 °C\n", "", "bad-csv: engine_temp"},
		{"a blank in a path", "path,set\nhead bolt,1 mm\ny,2 mm\n", "set y = 0.002 length", "bad-name: head bolt"},
		{"a dash for a path", "path,set\n-,1 mm\n", "", "bad-name: -"},
		{"no path in a row", "path,set\n,1 mm\n", "", "bad-name: ,"},
		{"a path that is a detail", "path,set\nlash.with,1 mm\nlash.found,2 mm\n", "", "unknown-key: lash.with\nunknown-key: lash.found"},
		{"a bad figure", "path,set\nx,.08 mm\ny,2 mm\n", "set x unread\nset y = 0.002 length", "leading-dot: .08"},
		{"a comma in quotes is no words", "path,set\nx,\"0,08 mm\"\n", "set x unread", "decimal-comma: 0,08"},
		{"a bad temperature", "path,set,engine-temp\nx,1 mm,cold\n", "set x unread", "bad-quantity: cold"},
		{"a value and a deeper one", "path,set\nlash.intake,1 mm\nlash.intake.left,2 mm\n", "set lash.intake = 0.001 length\nset lash.intake.left = 0.002 length", "value-and-deeper: lash.intake.left"},
		{"a value found and a deeper one set", "path,found,set\nlash.intake,1 mm,\nlash.intake.left,,2 mm\n", "found lash.intake = 0.001 length\nset lash.intake.left = 0.002 length", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := decode("data/x.csv", c.text)
			wantFound(t, d, c.found)
			if got := shownReadings(d.readings); got != c.want {
				t.Errorf("in\n%s\nread\n%s\nwant\n%s", c.text, got, c.want)
			}
		})
	}
}

func TestColumnsAreFoundByHeadOrName(t *testing.T) {
	c, _ := DecodeCSV(decode("data/x.csv", "RPM,P [hp],t\n1,2,3\n").file)
	for word, want := range map[string]int{"rpm": 0, "P [hp]": 1, "p": 1, "T": 2, "hp": -1, "": -1} {
		if got := c.Column(word); got != want {
			t.Errorf("column `%s` is number %d, want %d", word, got, want)
		}
	}
}
