//! The frame: header, verdict, places, and the way between them.

use carcass::Catalogue;
use yew::prelude::*;

use crate::cuts::Cuts;
use crate::draft::Draft;
use crate::keeping::{self, Keeping};
use crate::prices::Prices;
use crate::side::Side;
use crate::state::{Action, Data, Place, State};
use crate::verdict_strip::VerdictStrip;

/// The data files, checked and packed when the app is built.
const CATALOGUE: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/catalogue.packed"));

/// The whole app.
#[component]
pub fn App() -> Html {
    let opened = use_memo((), |()| {
        let (draft, keeping) = keeping::fetch();
        Catalogue::from_packed(CATALOGUE)
            .map(|catalogue| (Data::new(catalogue), draft, keeping))
            .map_err(|error| error.to_string())
    });
    match &*opened {
        Ok((data, draft, keeping)) => html! {
            <Counter data={data.clone()} draft={draft.clone()} keeping={*keeping} />
        },
        Err(error) => html! {
            <main class="column">
                <h1>{ "Sideworth" }</h1>
                <p role="alert">{ format!("The figures that come with the app are damaged: {error}. Reload the page.") }</p>
            </main>
        },
    }
}

#[derive(Properties, PartialEq)]
struct CounterProps {
    data: Data,
    draft: Draft,
    keeping: Keeping,
}

/// The app with its data.
#[component]
fn Counter(props: &CounterProps) -> Html {
    let state = use_reducer(|| State::new(props.data.clone(), props.draft.clone()));
    let keeping = use_state_eq(|| props.keeping);
    let dispatch = {
        let dispatcher = state.dispatcher();
        use_callback((), move |action: Action, ()| dispatcher.dispatch(action))
    };
    {
        let keeping = keeping.clone();
        let first = use_mut_ref(|| true);
        use_effect_with(state.draft.clone(), move |draft| {
            // What was just fetched need not be stored again.
            if first.replace(false) {
                return;
            }
            keeping.set(keeping::keep(draft));
        });
    }

    let trouble = state.trouble.clone().map(AttrValue::from);
    let places = Place::ALL.map(|place| {
        let content = match place {
            Place::Side => html! {
                <Side data={state.data.clone()} draft={state.draft.clone()} faults={state.faults.clone()}
                    figures={state.figures.clone()} dispatch={dispatch.clone()} />
            },
            Place::Cuts => html! {
                <Cuts data={state.data.clone()} figures={state.figures.clone()}
                    draft={state.draft.clone()} faults={state.faults.clone()} dispatch={dispatch.clone()} />
            },
            Place::Prices => html! {
                <Prices data={state.data.clone()} draft={state.draft.clone()} faults={state.faults.clone()}
                    figures={state.figures.clone()} is_current={state.is_current()} dispatch={dispatch.clone()} />
            },
        };
        let is_open = place == state.place;
        html! {
            <section key={place.id()} id={place.id()} class={classes!("place", is_open.then_some("is-open"))}
                aria-label={place.name()}>
                <h2>{ place.name() }</h2>
                { content }
            </section>
        }
    });

    html! {
        <div class="frame">
            <header class="top">
                <h1>{ "Sideworth" }</h1>
                <VerdictStrip figures={state.figures.clone()} is_current={state.is_current()}
                    trouble={trouble} units={state.draft.units} />
            </header>
            if let Some(notice) = keeping.notice() {
                <p class="banner" role="alert">{ notice }</p>
            }
            <main>{ for places }</main>
            { ways(state.place, &dispatch) }
        </div>
    }
}

/// The way from place to place on a narrow screen.
fn ways(open: Place, dispatch: &Callback<Action>) -> Html {
    let buttons = Place::ALL.map(|place| {
        let dispatch = dispatch.clone();
        let go = Callback::from(move |_: MouseEvent| {
            dispatch.emit(Action::Open(place));
            if let Some(window) = web_sys::window() {
                window.scroll_to_with_x_and_y(0.0, 0.0);
            }
        });
        html! {
            <button key={place.id()} type="button" onclick={go}
                aria-current={(place == open).then_some("page")}>
                { place.name() }
            </button>
        }
    });
    html! { <nav class="ways" aria-label="Places">{ for buttons }</nav> }
}
