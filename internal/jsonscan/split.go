package jsonscan

// Member is one name of a JSON object with the text of its value.
type Member struct {
	Name  string
	Value []byte
}

// KindOf returns the first byte of a JSON value that was checked: one of
// { [ " t f n, and 0 for every number.
func KindOf(raw []byte) byte {
	first := raw[skipBlanks(raw, 0)]
	if first == '-' || isDigit(first) {
		return '0'
	}
	return first
}

// Items returns the entries of a JSON list that was checked. They share raw's
// memory.
func Items(raw []byte) [][]byte {
	items := [][]byte{}
	at := skipBlanks(raw, skipBlanks(raw, 0)+1)
	for at < len(raw) && raw[at] != ']' {
		end := skipValue(raw, at)
		items = append(items, raw[at:end:end])
		at = skipBlanks(raw, end)
		if at < len(raw) && raw[at] == ',' {
			at = skipBlanks(raw, at+1)
		}
	}
	return items
}

// Members takes a JSON object that was checked apart, in the order in which its
// names stand. The values share raw's memory.
func Members(raw []byte) []Member {
	members := make([]Member, 0, 8)
	at := skipBlanks(raw, skipBlanks(raw, 0)+1)
	for at < len(raw) && raw[at] == '"' {
		end := skipText(raw, at)
		name := Text(raw[at:end])
		at = skipBlanks(raw, skipBlanks(raw, end)+1)
		end = skipValue(raw, at)
		members = append(members, Member{name, raw[at:end:end]})
		at = skipBlanks(raw, end)
		if at < len(raw) && raw[at] == ',' {
			at = skipBlanks(raw, at+1)
		}
	}
	return members
}

func skipBlanks(data []byte, at int) int {
	for at < len(data) {
		switch data[at] {
		case ' ', '\t', '\n', '\r':
			at++
		default:
			return at
		}
	}
	return at
}

// skipText returns where the string that starts at at ends.
func skipText(data []byte, at int) int {
	for at++; data[at] != '"'; at++ {
		if data[at] == '\\' {
			at++
		}
	}
	return at + 1
}

// skipValue returns where the value that starts at at ends.
func skipValue(data []byte, at int) int {
	depth := 0
	for at < len(data) {
		switch data[at] {
		case '"':
			at = skipText(data, at)
			if depth == 0 {
				return at
			}
			continue
		case '{', '[':
			depth++
		case '}', ']':
			if depth == 0 {
				return at
			}
			if depth--; depth == 0 {
				return at + 1
			}
		case ',', ' ', '\t', '\n', '\r':
			if depth == 0 {
				return at
			}
		}
		at++
	}
	return at
}
