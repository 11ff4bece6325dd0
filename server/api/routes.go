package api

import (
	"net/http"
	"strings"

	"github.com/gorilla/mux"

	"tautspan/internal/fault"
	"tautspan/internal/record"
	"tautspan/internal/wire"
	"tautspan/server/reply"
	"tautspan/server/store"
)

// Route is one action: where it is, who may take it, what goes in and out.
type Route struct {
	Method, Path string
	// Least is the least role that may; empty for an action that needs no token.
	// Every action with a role is about the garage {id} in its path.
	Least   record.Role
	Summary string
	Stream  bool // it stays open, so how long it took says nothing
	// Request and Response make an empty message, to describe it; nil for none.
	Request, Response func() wire.Message
	public            func(*actions, http.ResponseWriter, *http.Request) error
	member            func(*actions, http.ResponseWriter, *http.Request, *store.Session) error
}

const inGarage = v1 + "/garages/{id}"

// routes is the one table of what HTTP offers.
var routes []Route

func init() { // the table lists actions that describe the table
	routes = []Route{
		{Method: "POST", Path: v1 + "/calc/{name}", public: calcRun},
		{Method: "GET", Path: v1 + "/openapi.json", Summary: "This document", public: openapiGet},
		{Method: "GET", Path: "/healthz", Summary: "Whether the process answers", public: healthGet},
		{Method: "GET", Path: v1 + "/healthz", Summary: "Whether the process answers", public: healthGet},
		{Method: "GET", Path: "/readyz", Summary: "Whether the database answers", public: readyGet},
		{Method: "GET", Path: v1 + "/readyz", Summary: "Whether the database answers", public: readyGet},
		{Method: "GET", Path: "/metrics", Summary: "Counts for monitoring, to this machine only", public: metricsGet},
		{Method: "GET", Path: v1 + "/metrics", Summary: "Counts for monitoring, to this machine only", public: metricsGet},
		{Method: "POST", Path: v1 + "/garages", Summary: "Found a garage and be its owner", public: garageCreate,
			Request: message[garageRequest], Response: message[welcome]},
		{Method: "POST", Path: v1 + "/join", Summary: "Join a garage with an invitation", public: garageJoin,
			Request: message[joinRequest], Response: message[welcome]},
		{Method: "DELETE", Path: inGarage, Least: record.Owner, Summary: "Delete the garage with everything in it", member: garageDelete},
		{Method: "POST", Path: inGarage + "/invites", Least: record.Owner, Summary: "Make an invitation", member: inviteCreate,
			Request: message[inviteRequest], Response: message[inviteResponse]},
		{Method: "GET", Path: inGarage + "/devices", Least: record.Owner, Summary: "List the devices", member: devicesList},
		{Method: "PATCH", Path: inGarage + "/devices/{device_id}", Least: record.Owner, Summary: "Change what a device may do; it hears at its next sync",
			member: deviceChange, Request: message[changeRequest]},
		{Method: "DELETE", Path: inGarage + "/devices/{device_id}", Least: record.Viewer,
			Summary: "Shut a device out: an owner any, everybody their own", member: deviceRevoke},
		{Method: "POST", Path: inGarage + "/sync", Least: record.Viewer, Summary: "Send new operations and get those of others",
			member: syncRun, Request: message[syncRequest], Response: message[syncResponse]},
		{Method: "GET", Path: inGarage + "/events", Least: record.Viewer, Summary: "Server-sent events: one named cursor whenever there is something new", Stream: true, member: eventsStream},
		{Method: "GET", Path: inGarage + "/export.json", Least: record.Viewer, Summary: "The whole garage as JSON", member: exportJSON},
		{Method: "GET", Path: inGarage + "/export.csv", Least: record.Viewer, Summary: "Every reading as CSV (RFC 4180)", member: exportCSV},
		{Method: "GET", Path: inGarage + "/checks.ics", Least: record.Viewer, Summary: "The next checks as a calendar (RFC 5545)", member: checksCalendar},
	}
}

// message makes an empty message of a type.
func message[T any, P interface {
	*T
	wire.Message
}]() wire.Message {
	return P(new(T))
}

// guarded is the route's action behind its checks: the token, the garage in the
// path, the role. Its error, if any, is the answer.
func (a *actions) guarded(route Route) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		var err error
		if route.Least == "" {
			err = route.public(a, w, r)
		} else {
			err = a.asMember(route, w, r)
		}
		if err == store.ErrShutOut {
			w.Header().Set("WWW-Authenticate", "Bearer")
			reply.ErrorStatus(w, r, http.StatusUnauthorized, err)
		} else if err != nil {
			reply.Error(w, r, err)
		}
	})
}

func (a *actions) asMember(route Route, w http.ResponseWriter, r *http.Request) error {
	who, err := a.Store.Authenticate(token(r))
	switch {
	case err != nil:
		return err
	case who == nil:
		return store.ErrShutOut
	case who.GarageID != mux.Vars(r)["id"]:
		return fault.New(fault.NotFound, "", "there is no such garage, or it is not yours to see")
	case !who.Role.AtLeast(route.Least):
		return fault.New(fault.Denied, "", "a "+string(who.Role)+" may not do this; that takes the role "+string(route.Least))
	}
	if err := a.Store.Seen(who, a.Now().UnixMilli()); err != nil {
		return err
	}
	return route.member(a, w, r, who)
}

// token returns what stands behind "Bearer", else nothing.
func token(r *http.Request) string {
	scheme, rest, _ := strings.Cut(r.Header.Get("Authorization"), " ")
	if !strings.EqualFold(scheme, "Bearer") {
		return ""
	}
	return strings.TrimSpace(rest)
}

// read reads a small request into m.
func read(w http.ResponseWriter, r *http.Request, m wire.Message) error {
	body, err := readBody(w, r, 4<<10)
	if err != nil {
		return err
	}
	return wire.Read(body, m)
}

// answer writes m with a status.
func answer(w http.ResponseWriter, status int, m wire.Message) error {
	text, err := wire.Write(m)
	if err != nil {
		return err
	}
	reply.JSON(w, status, text)
	return nil
}
