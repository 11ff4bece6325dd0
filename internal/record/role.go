package record

// Role is what a device may do in a garage.
type Role string

// The roles, from the one that may do most.
const (
	Owner   Role = "owner"   // everything; invites, revokes, deletes
	Leader  Role = "leader"  // also edits bikes, chains, instruments, rounds and prices
	Checker Role = "checker" // adds readings, distances, care and round checks
	Viewer  Role = "viewer"  // reads
)

// Roles lists every role, from the one that may do most.
func Roles() []Role { return []Role{Owner, Leader, Checker, Viewer} }

// AtLeast reports whether r may do all that least may. An unknown role may
// nothing.
func (r Role) AtLeast(least Role) bool { return r.rank() >= least.rank() && r.rank() > 0 }

func (r Role) rank() int {
	switch r {
	case Owner:
		return 4
	case Leader:
		return 3
	case Checker:
		return 2
	case Viewer:
		return 1
	}
	return 0
}
