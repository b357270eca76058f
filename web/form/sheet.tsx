import { Modal, type ModalProps } from '@mantine/core';

type SheetProps = Pick<ModalProps, 'onClose' | 'title' | 'size' | 'children'>;

/** What lies over the page until it is closed: by its button, by Escape or beside it. */
export function Sheet(props: SheetProps) {
  return <Modal opened closeButtonProps={{ 'aria-label': 'Close' }} {...props} />;
}
