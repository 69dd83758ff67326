import type { AgainPage } from './again.ts'
import type { BoardPage } from './board.ts'
import type { CardsPage } from './cards.ts'
import type { CheckPage } from './check.ts'
import type { CheckSheetPage } from './check-sheet.ts'
import type { FieldPage } from './field.ts'
import type { FieldRowPage } from './field-row.ts'
import type { HolePage } from './hole.ts'
import type { JoinPage } from './join.ts'
import type { JoinCardPage } from './join-card.ts'
import type { LinePage } from './line.ts'
import type { LineHelperPage } from './line-page.ts'
import type { NightsPage, SitesPage, TelescopesPage } from './lists.ts'
import type { NewcomersPage } from './newcomers.ts'
import type { NightFormPage } from './night-form.ts'
import type { NightObjectsPage } from './night-objects.ts'
import type { ObjectPage } from './object.ts'
import type { ObjectTonightPage } from './object-tonight.ts'
import type { ObjectsPage } from './objects.ts'
import type { OwnFormPage } from './own-form.ts'
import type { OwnImportPage } from './own-import.ts'
import type { OwnObjectsPage } from './own-objects.ts'
import type { OwnWordsPage } from './own-words.ts'
import type { PhonesPage } from './phones.ts'
import type { ProblemPage } from './problem-page.ts'
import type { ProgrammePage } from './programme.ts'
import type { RunSheetPage } from './run-sheet.ts'
import type { SignInPage } from './sign-in.ts'
import type { SiteFormPage } from './site-form.ts'
import type { SheetsPage } from './station-sheets.ts'
import type { TelescopeFormPage } from './telescope-form.ts'
import type { TonightPage } from './tonight.ts'
import type { WishesPage } from './wishes.ts'

/** Every page by the name of its template (`views/pages/<name>.hbs` or `views/print/<name>.hbs`), with its model. */
export interface Pages {
  readonly board: BoardPage
  readonly 'sign-in': SignInPage
  readonly join: JoinPage
  readonly phones: PhonesPage
  readonly nights: NightsPage
  readonly newcomers: NewcomersPage
  readonly 'night-form': NightFormPage
  readonly sites: SitesPage
  readonly 'site-form': SiteFormPage
  readonly telescopes: TelescopesPage
  readonly 'telescope-form': TelescopeFormPage
  readonly programme: ProgrammePage
  readonly again: AgainPage
  readonly wishes: WishesPage
  readonly check: CheckPage
  readonly line: LinePage
  readonly hole: HolePage
  readonly 'night-objects': NightObjectsPage
  readonly 'object-tonight': ObjectTonightPage
  readonly objects: ObjectsPage
  readonly object: ObjectPage
  readonly 'own-objects': OwnObjectsPage
  readonly 'own-form': OwnFormPage
  readonly 'own-import': OwnImportPage
  readonly 'own-words': OwnWordsPage
  readonly 'check-sheet': CheckSheetPage
  readonly 'run-sheet': RunSheetPage
  readonly sheets: SheetsPage
  readonly cards: CardsPage
  readonly 'join-card': JoinCardPage
  readonly 'field-row': FieldRowPage
  readonly field: FieldPage
  readonly 'line-page': LineHelperPage
  readonly tonight: TonightPage
  readonly problem: ProblemPage
}
