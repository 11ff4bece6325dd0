package web

import (
	"strconv"
	"strings"
)

// choose returns the smallest form that an Accept-Encoding header allows: br,
// gzip or "" for the plain one, by RFC 9110 section 12.5.3. A client that
// refuses the plain form too gets it all the same, as the RFC permits.
func choose(accept string, forms map[string][]byte) string {
	best := ""
	for coding, body := range forms {
		if coding != "" && allows(accept, coding) && len(body) < len(forms[best]) {
			best = coding
		}
	}
	return best
}

// allows reports whether the header names coding, or * in its place, with a
// quality above zero.
func allows(accept, coding string) bool {
	star := false
	for part := range strings.SplitSeq(accept, ",") {
		name, parameter, _ := strings.Cut(part, ";")
		switch name = strings.ToLower(strings.TrimSpace(name)); name {
		case coding:
			return wanted(parameter)
		case "*":
			star = wanted(parameter)
		}
	}
	return star
}

func wanted(parameter string) bool {
	q, found := strings.CutPrefix(strings.ToLower(strings.ReplaceAll(parameter, " ", "")), "q=")
	if !found {
		return true
	}
	quality, err := strconv.ParseFloat(q, 64)
	return err == nil && quality > 0
}
