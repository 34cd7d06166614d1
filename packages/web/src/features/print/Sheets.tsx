/** Every sheet as it will print: documents on one side, the page on the other. The address carries both. */
import { useEffect, useState } from 'react'
import { Link, useSearchParams } from 'wouter'
import { Button } from '../../parts/Button.tsx'
import { save } from '../../parts/save.ts'
import styles from './PrintPage.module.css'
import { fileName, type Listed, pagesInWords } from './print.results.ts'
import { documentPdf, notMade, pageSvg } from './printing.ts'

interface SheetsProps {
  readonly listed: readonly Listed[]
  readonly grey: boolean
}

export function Sheets({ listed, grey }: SheetsProps) {
  const [search, setSearch] = useSearchParams()
  const chosen = within(Number(search.get('document') ?? 1), listed.length) - 1
  const document = listed[chosen]!
  const page = within(Number(search.get('sheet') ?? 1), document.pages.length) - 1
  const go = (sheet: number): void =>
    setSearch({ document: String(chosen + 1), sheet: String(sheet + 1) }, { replace: true })
  const [busy, setBusy] = useState(false)
  const [fault, setFault] = useState('')
  const savePdf = async (): Promise<void> => {
    setBusy(true)
    setFault('')
    try {
      save(fileName(document.path), await documentPdf(chosen), 'application/pdf')
    } catch (error) {
      setFault(notMade(error))
    } finally {
      setBusy(false)
    }
  }
  return (
    <div className={styles.sheets}>
      <nav aria-label="Documents" className={styles.documents}>
        <ol>
          {listed.map(({ path, what, pages }, i) => (
            <li key={path}>
              <Link href={`/print?document=${i + 1}&sheet=1`} aria-current={i === chosen ? 'true' : undefined}>
                <span>{what.charAt(0).toUpperCase() + what.slice(1)}</span>
                <span className={styles.count}>{pagesInWords(pages.length)}</span>
              </Link>
            </li>
          ))}
        </ol>
      </nav>
      <div className={styles.shown}>
        <div className={styles.turn}>
          <Button isDisabled={page === 0} onPress={() => go(page - 1)}>
            Sheet before
          </Button>
          <span role="status">
            {page + 1} of {document.pages.length}
          </span>
          <Button isDisabled={page === document.pages.length - 1} onPress={() => go(page + 1)}>
            Sheet after
          </Button>
          <Button isDisabled={busy} onPress={() => void savePdf()}>
            {busy ? 'Making the PDF …' : 'Save this PDF'}
          </Button>
        </div>
        {fault !== '' && (
          <p className={styles.faults} role="alert">
            {fault}
          </p>
        )}
        <Sheet
          key={`${chosen} ${page}`}
          document={chosen}
          page={page}
          title={document.pages[page]?.title ?? ''}
          listed={listed}
          grey={grey}
        />
      </div>
    </div>
  )
}

const within = (asked: number, count: number): number =>
  Math.min(Math.max(Math.trunc(asked) || 1, 1), Math.max(count, 1))

interface SheetProps {
  readonly listed: readonly Listed[]
  readonly document: number
  readonly page: number
  readonly title: string
  readonly grey: boolean
}

/** Written by our own escaping writer; on white, since that is what paper is. */
function Sheet({ listed, document, page, title, grey }: SheetProps) {
  const [svg, setSvg] = useState('')
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new list has new pages under the same places
  useEffect(() => {
    let wanted = true
    void pageSvg(document, page).then((text) => wanted && setSvg(text))
    return () => {
      wanted = false
    }
  }, [listed, document, page])
  return (
    <div
      className={styles.sheet}
      data-grey={grey || undefined}
      role="img"
      aria-label={`${title}, as it will print`}
      // biome-ignore lint/security/noDangerouslySetInnerHtml: written by our own escaping writer
      dangerouslySetInnerHTML={{ __html: svg }}
    />
  )
}
