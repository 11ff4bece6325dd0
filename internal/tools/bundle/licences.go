package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// licencesName is the file with the licences. Phones keep it like all else.
const licencesName = "licences.txt"

// licences are texts of licences, each with the works of others it is for.
type licences map[string][]string

// add takes in the licence that lies in a work's folder.
func (l licences) add(work, dir string) error {
	text, err := os.ReadFile(filepath.Join(dir, "LICENSE"))
	if err != nil {
		return fmt.Errorf("looking for the licence of %s, which must go along with it: %w", work, err)
	}
	clean := strings.TrimSpace(strings.ReplaceAll(string(text), "\r\n", "\n"))
	l[clean] = append(l[clean], work)
	return nil
}

// text writes each licence once, under the works it is for.
func (l licences) text() []byte {
	sections := []string{}
	for text, works := range l {
		slices.Sort(works)
		sections = append(sections, strings.Join(works, "\n")+"\n\n"+text+"\n")
	}
	slices.Sort(sections)
	return []byte(strings.Join(sections, "\n"+strings.Repeat("-", 72)+"\n\n"))
}

// programLicences returns those of Go and of the modules in the program, as
// they lie in the toolchain and in the module cache.
func programLicences() (licences, error) {
	const format = `{{with .Module}}{{if .Version}}{{.Path}} {{.Version}}{{"\t"}}{{.Dir}}{{end}}{{end}}`
	list, err := exec.Command("go", "list", "-deps", "-f", format, ".").Output()
	if err != nil {
		return nil, fmt.Errorf("listing the program's modules: %w", err)
	}
	l := licences{}
	for _, line := range slices.Compact(slices.Sorted(strings.Lines(string(list)))) {
		work, dir, _ := strings.Cut(strings.TrimSpace(line), "\t")
		if err := l.add(work, dir); err != nil {
			return nil, err
		}
	}
	root, err := goRoot()
	if err != nil {
		return nil, err
	}
	return l, l.add("Go", root)
}

// addLicences takes in one file with the licences of the program's modules and
// of the packages that are in the page's scripts.
func (s *site) addLicences(program licences) error {
	all := licences{}
	maps.Copy(all, program)
	for _, dir := range slices.Sorted(maps.Keys(s.packages)) {
		var about struct{ Name, Version string }
		text, err := os.ReadFile(filepath.Join(dir, "package.json"))
		if err == nil {
			err = json.Unmarshal(text, &about)
		}
		if err != nil {
			return err
		}
		if err := all.add(about.Name+" "+about.Version, dir); err != nil {
			return err
		}
	}
	s.add(licencesName, all.text())
	return nil
}
