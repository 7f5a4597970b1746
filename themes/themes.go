// Package themes holds the style sheets of the site, one folder a theme.
//
// A name goes in, its CSS comes out. The one invariant: a theme is CSS alone and names no address outside the site.
package themes

import (
	"embed"
	"fmt"
)

// Usual is the theme of a journal that names none.
const Usual = "workshop"

//go:embed */*
var files embed.FS

// Names returns the names of the themes, sorted.
func Names() []string {
	folders, err := files.ReadDir(".")
	if err != nil {
		return nil
	}
	var names []string
	for _, folder := range folders {
		names = append(names, folder.Name())
	}
	return names
}

// CSS returns the style sheet of a theme.
func CSS(name string) ([]byte, error) {
	css, err := files.ReadFile(name + "/theme.css")
	if err != nil {
		return nil, fmt.Errorf("there is no theme `%s`", name)
	}
	return css, nil
}
