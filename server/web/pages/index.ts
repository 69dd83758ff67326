import type { AgainPage } from './again.ts'
import type { AlignPage } from './align.ts'
import type { AloudPage } from './aloud.ts'
import type { BackupsPage, GoBackPage } from './backups.ts'
import type { BoardPage } from './board.ts'
import type { CarryPage } from './carry.ts'
import type { CheckPage } from './check.ts'
import type { ChecklistsPage } from './checklists.ts'
import type { ChecklistsForm } from './checklists-form.ts'
import type { ClassVisitPage } from './class-visit.ts'
import type { DatePage } from './date.ts'
import type { DateRulesPage } from './date-rules-form.ts'
import type { DatesPage } from './dates.ts'
import type { FaultsPage } from './faults.ts'
import type { FieldPage } from './field.ts'
import type { FieldRowPage } from './field-row.ts'
import type { GoPage } from './go.ts'
import type { GoLimitsPage } from './go-limits.ts'
import type { HolePage } from './hole.ts'
import type { JoinPage } from './join.ts'
import type { LinePage } from './line.ts'
import type { LineHelperPage } from './line-page.ts'
import type { NightsPage, SitesPage } from './lists.ts'
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
import type { PapersPage } from './paper.ts'
import type { PapersForm } from './papers-form.ts'
import type { PhonesPage } from './phones.ts'
import type { ProblemPage } from './problem-page.ts'
import type { ProgrammePage } from './programme.ts'
import type { ReadingPage } from './reading.ts'
import type { ReportPage } from './report.ts'
import type { SeasonPage } from './season.ts'
import type { SetUpPage } from './set-up.ts'
import type { SignInPage } from './sign-in.ts'
import type { SiteFormPage } from './site-form.ts'
import type { SiteNotesForm } from './site-notes-form.ts'
import type { StartPage } from './start.ts'
import type { StartMadePage } from './start-made.ts'
import type { TelescopePage } from './telescope.ts'
import type { TelescopeFormPage } from './telescope-form.ts'
import type { TelescopesPage } from './telescopes.ts'
import type { ThinCloudPage } from './thin-cloud.ts'
import type { TonightPage } from './tonight.ts'
import type { WishesPage } from './wishes.ts'

/** Every page by the name of its template (`views/pages/<name>.hbs` or `views/print/<name>.hbs`), with its model. */
export interface Pages {
  readonly board: BoardPage
  readonly backups: BackupsPage
  readonly carry: CarryPage
  readonly 'go-back': GoBackPage
  readonly 'sign-in': SignInPage
  readonly join: JoinPage
  readonly phones: PhonesPage
  readonly nights: NightsPage
  readonly start: StartPage
  readonly 'start-made': StartMadePage
  readonly newcomers: NewcomersPage
  readonly 'night-form': NightFormPage
  readonly dates: DatesPage
  readonly date: DatePage
  readonly 'date-rules': DateRulesPage
  readonly sites: SitesPage
  readonly 'site-form': SiteFormPage
  readonly 'site-notes-form': SiteNotesForm
  readonly checklists: ChecklistsPage
  readonly 'checklists-form': ChecklistsForm
  readonly 'class-visit': ClassVisitPage
  readonly telescopes: TelescopesPage
  readonly telescope: TelescopePage
  readonly 'telescope-form': TelescopeFormPage
  readonly programme: ProgrammePage
  readonly again: AgainPage
  readonly wishes: WishesPage
  readonly check: CheckPage
  readonly line: LinePage
  readonly hole: HolePage
  readonly go: GoPage
  readonly 'go-limits': GoLimitsPage
  readonly 'thin-cloud': ThinCloudPage
  readonly reading: ReadingPage
  readonly report: ReportPage
  readonly season: SeasonPage
  readonly align: AlignPage
  readonly 'set-up': SetUpPage
  readonly aloud: AloudPage
  readonly faults: FaultsPage
  readonly 'night-objects': NightObjectsPage
  readonly 'object-tonight': ObjectTonightPage
  readonly objects: ObjectsPage
  readonly object: ObjectPage
  readonly 'own-objects': OwnObjectsPage
  readonly 'own-form': OwnFormPage
  readonly 'own-import': OwnImportPage
  readonly 'own-words': OwnWordsPage
  readonly papers: PapersPage
  readonly 'papers-form': PapersForm
  readonly 'field-row': FieldRowPage
  readonly field: FieldPage
  readonly 'line-page': LineHelperPage
  readonly tonight: TonightPage
  readonly problem: ProblemPage
}
